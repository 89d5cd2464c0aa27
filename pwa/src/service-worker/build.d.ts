/** Every file of the built app, put in by vite-service-worker.ts. A revision is null where the name holds a hash. */
declare const PRECACHED_FILES: readonly { readonly url: string; readonly revision: string | null }[];

/** Changes with any built file. */
declare const BUILD_ID: string;
