/** What the log's chain starts from. */
export const CHAIN_START = "0".repeat(64);

/** SHA-256 of a text in UTF-8, as 64 hex digits. Over canonical text this is the content hash. */
export function hashOf(text: string): Promise<string> {
  return hashOfBytes(new TextEncoder().encode(text));
}

/** SHA-256 of bytes, as 64 hex digits: the name of a picture. */
export async function hashOfBytes(bytes: BufferSource): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The log's chain one row further: a hash over the chain so far, the row's id and its content hash. */
export function chainNext(chain: string, id: string, content_hash: string): Promise<string> {
  return hashOf(chain + id + content_hash);
}
