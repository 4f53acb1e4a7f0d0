/** What was read of the files that existing things are taken from, by document store. */
import type { LangiumDocuments, URI } from 'langium';
import type { ThingMesh } from '../../analysis/model/thing.js';
import { readStl, type MeshFault } from '../../analysis/solid/read-stl.js';

const held = new WeakMap<LangiumDocuments, Map<string, ThingMesh | MeshFault>>();

/** A file of triangles, by its ending. */
export const isMeshFile = (path: string): boolean => /\.stl$/i.test(path);

export const keepMesh = (documents: LangiumDocuments, uri: URI, bytes: Uint8Array): void => {
  let known = held.get(documents);
  if (!known) held.set(documents, (known = new Map()));
  known.set(uri.toString(), readStl(bytes));
};

/** Undefined: there is no such file, or it was not read yet. */
export const meshAt = (documents: LangiumDocuments, uri: URI): ThingMesh | MeshFault | undefined =>
  held.get(documents)?.get(uri.toString());

export const forgetMeshes = (documents: LangiumDocuments): void => {
  held.delete(documents);
};
