/** Whether the browser promised not to clear this app's storage under pressure; null where it does not say. */
export type Kept = boolean | null;

export interface Room {
  readonly used_bytes: number;
  readonly quota_bytes: number;
}

/** Asks for persistent storage. Browsers decide by themselves; some prompt, so ask after the first save. */
export async function askToKeep(storage: StorageManager | undefined): Promise<Kept> {
  try {
    if (!storage?.persist) return null;
    return (await storage.persisted()) || (await storage.persist());
  } catch {
    return null;
  }
}

export async function isKept(storage: StorageManager | undefined): Promise<Kept> {
  try {
    return storage?.persisted ? await storage.persisted() : null;
  } catch {
    return null;
  }
}

export async function roomLeft(storage: StorageManager | undefined): Promise<Room | null> {
  try {
    const estimate = await storage?.estimate?.();
    if (estimate?.usage === undefined || estimate.quota === undefined) return null;
    return { used_bytes: estimate.usage, quota_bytes: estimate.quota };
  } catch {
    return null;
  }
}
