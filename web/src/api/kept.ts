import type { Edit, Path } from "./types";

/** Something entered on this screen that the program has not taken yet. */
export interface Entry {
  id: string;
  build: string;
  variant: string | null;
  edits: Edit[];
  /** What stood at each place when it was entered, as JSON; empty: nothing. */
  seen: Record<Path, string>;
}

const kDatabase = "rigwright";
const kEntries = "entries";

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

let opening: Promise<IDBDatabase> | null = null;

/** Null where the browser keeps nothing, as in a private window. */
async function database(): Promise<IDBDatabase | null> {
  if (typeof indexedDB === "undefined") return null;
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(kDatabase, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(kEntries, { keyPath: "id" });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  try {
    return await opening;
  } catch {
    opening = null;
    return null;
  }
}

async function store(mode: IDBTransactionMode): Promise<IDBObjectStore | null> {
  const open = await database();
  return open?.transaction(kEntries, mode).objectStore(kEntries) ?? null;
}

/** Keeps an entry in the tablet until the program has taken it. */
export async function keep(entry: Entry): Promise<void> {
  const entries = await store("readwrite");
  if (entries) await done(entries.put(entry));
}

export async function forget(id: string): Promise<void> {
  const entries = await store("readwrite");
  if (entries) await done(entries.delete(id));
}

/** What this tablet still holds for a build, in the order it was entered. */
export async function keptFor(build: string): Promise<Entry[]> {
  const entries = await store("readonly");
  if (!entries) return [];
  const all: Entry[] = await done(entries.getAll());
  return all.filter((e) => e.build === build).sort((a, b) => (a.id < b.id ? -1 : 1));
}
