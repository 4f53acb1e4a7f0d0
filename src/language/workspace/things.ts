/** What was read of the files that existing things are taken from, by document store. */
import type { LangiumDocuments, URI } from 'langium';
import type { Drawing } from '../../analysis/model/drawing.js';
import type { ThingMesh } from '../../analysis/model/around/thing.js';
import { readStl, type MeshFault } from '../../analysis/solid/bodies/read-stl.js';
import { readDxf } from './read-dxf.js';

/** What a file holds: a mesh, or lines that are drawn out to one; or what is wrong with it. */
export type ThingFileContent = ThingMesh | Drawing | MeshFault;

const held = new WeakMap<LangiumDocuments, Map<string, ThingFileContent>>();

/** A file of triangles or of drawn lines, by its ending. */
export const isMeshFile = (path: string): boolean => /\.(stl|dxf)$/i.test(path);

export const keepMesh = (documents: LangiumDocuments, uri: URI, bytes: Uint8Array): void => {
  let known = held.get(documents);
  if (!known) held.set(documents, (known = new Map()));
  known.set(uri.toString(), /\.dxf$/i.test(uri.path) ? readDxf(bytes) : readStl(bytes));
};

/** Undefined: there is no such file, or it was not read yet. */
export const meshAt = (documents: LangiumDocuments, uri: URI): ThingFileContent | undefined =>
  held.get(documents)?.get(uri.toString());

export const forgetMeshes = (documents: LangiumDocuments): void => {
  held.delete(documents);
};
