/**
 * The device's own small database: events on their way and marks (drafts, answered timers, the device's name).
 * Opened again once when it was closed from outside; a full disk is told, never swallowed.
 */

const NAME = "soapbench";
const VERSION = 1;

/** @type {Promise<IDBDatabase> | null} */
let opening = null;

/** @returns {Promise<IDBDatabase>} */
function open() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      const events = request.result.createObjectStore("events", { keyPath: "order", autoIncrement: true });
      events.createIndex("id", "id", { unique: true });
      events.createIndex("run", "run");
      request.result.createObjectStore("marks");
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opening;
}

/**
 * Run one transaction and return what its request found, once it is safely on disk.
 * @param {"events" | "marks"} name
 * @param {IDBTransactionMode} mode
 * @param {(store: IDBObjectStore) => IDBRequest} act
 * @returns {Promise<any>}
 */
export async function inStore(name, mode, act) {
  try {
    return await attempt(await open(), name, mode, act);
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== "InvalidStateError") throw error;
    opening = null;
    return attempt(await open(), name, mode, act);
  }
}

/**
 * @param {IDBDatabase} database
 * @param {string} name
 * @param {IDBTransactionMode} mode
 * @param {(store: IDBObjectStore) => IDBRequest} act
 * @returns {Promise<any>}
 */
function attempt(database, name, mode, act) {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(name, mode);
    const request = act(transaction.objectStore(name));
    transaction.oncomplete = () => resolve(request.result);
    transaction.onabort = () => reject(transaction.error ?? request.error);
  });
}

/**
 * @param {string} key
 * @returns {Promise<any>} undefined when there is no such mark
 */
export function mark(key) {
  return inStore("marks", "readonly", (store) => store.get(key));
}

/**
 * @param {string} key
 * @param {unknown} value undefined takes the mark away
 * @returns {Promise<any>}
 */
export function setMark(key, value) {
  return inStore("marks", "readwrite", (store) => (value === undefined ? store.delete(key) : store.put(value, key)));
}
