"""A device as it is listed, by the server and by the command line."""

from datetime import UTC, datetime

from broodline.store.devices import Device


def device_json(device: Device, *, own: bool = False) -> dict[str, object]:
    """The device without its secrets. own: whether it is the one that asks."""
    return {
        "id": device.id,
        "name": device.name,
        "role": device.role,
        "created_at": moment(device.created_ms),
        "last_seen_at": moment(device.last_seen_ms),
        "revoked_at": None if device.revoked_ms is None else moment(device.revoked_ms),
        "this_device": own,
    }


def moment(ms: int) -> str:
    """A time as text, UTC, to the millisecond."""
    return datetime.fromtimestamp(ms / 1000, UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
