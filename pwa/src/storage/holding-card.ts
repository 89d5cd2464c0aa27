/** What this phone may do in a holding: a reader records nothing. */
export type Role = "keeper" | "helper" | "reader";

/**
 * How this phone stands to one holding. `paired_ms` is null for a book begun before any pairing: its id was
 * made here and is offered to an empty server. `device` signs the entries written now; `earlier_devices` are
 * ids this phone had before it paired again.
 */
export interface HoldingCard {
  readonly id: string;
  readonly name: string;
  readonly demo: boolean;
  readonly device: string;
  readonly earlier_devices: readonly string[];
  readonly role: Role;
  readonly paired_ms: number | null;
}
