"""Prints the JSON schema of all bodies, for generate_bodies.mjs: `make types` runs both.

{"$defs": {model: schema}, "kinds": {kind: {"$ref": ...}}}
"""

import json
import sys
from typing import Any

from pydantic.json_schema import models_json_schema

from broodline.book.kinds import KINDS


def without_titles(schema: Any) -> Any:
    """The same schema without titles: they repeat the field's name, and would each become a type."""
    if isinstance(schema, list):
        return [without_titles(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    is_schema = "title" in schema and isinstance(schema["title"], str)
    return {key: without_titles(part) for key, part in schema.items() if not (is_schema and key == "title")}


def bodies_schema() -> dict[str, Any]:
    """Every model that a body needs, and which of them each kind is."""
    refs, schema = models_json_schema([(model, "validation") for model in KINDS.values()])
    kinds = {kind: refs[model, "validation"] for kind, model in KINDS.items()}
    return {"$defs": without_titles(schema["$defs"]), "kinds": kinds}


if __name__ == "__main__":
    json.dump(bodies_schema(), sys.stdout)
