/**
 * A photograph taken and not sent yet, kept in the browser's own database: the workshop's network may be away, and the
 * coupon may already hang again.
 */
const databaseName = "coatwright";
const storeName = "waiting photos";

export const keepWaitingPhoto = (key: string, file: Blob) => inStore("readwrite", (store) => store.put(file, key));
export const dropWaitingPhoto = (key: string) => inStore("readwrite", (store) => store.delete(key));

export async function waitingPhoto(key: string): Promise<Blob | null> {
  const found: unknown = await inStore("readonly", (store) => store.get(key));
  return found instanceof Blob ? found : null;
}

/** A browser that keeps nothing costs only the memory: then null. */
async function inStore(mode: IDBTransactionMode, act: (store: IDBObjectStore) => IDBRequest): Promise<unknown> {
  try {
    const database = await settled(opened());
    try {
      return await settled(act(database.transaction(storeName, mode).objectStore(storeName)));
    } finally {
      database.close();
    }
  } catch {
    return null;
  }
}

function opened(): IDBOpenDBRequest {
  const request = indexedDB.open(databaseName, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(storeName);
  return request;
}

function settled<Result>(request: IDBRequest<Result>): Promise<Result> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
