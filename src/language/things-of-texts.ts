/** Existing things of other files, as meshes. */
import type { LangiumDocuments, URI } from 'langium';
import { memoBy } from '../analysis/cache/memo.js';
import type { Vec3 } from '../analysis/geometry/vec.js';
import type { Drawing } from '../analysis/model/drawing.js';
import type { ThingMesh } from '../analysis/model/around/thing.js';
import { meshOf } from '../analysis/solid/boundary/mesh.js';
import type { Stages } from '../analysis/stages/stages.js';
import { isClosed, type MeshFault } from '../analysis/solid/bodies/read-stl.js';
import type { ExistingFile } from './generated/ast.js';
import type { FoldedThing, Things } from './lower/lowering.js';
import type { TubDocument } from './lower/text/sources.js';
import { thingFiles } from './workspace/imports.js';
import { isMeshFile, meshAt } from './workspace/things.js';

/** Texts that are being evaluated: one that is a thing of itself is told, not followed. */
const open = new Set<TubDocument>();

/** What the things that the documents take from other files are made of; `stagesOf` works out a text that is one. */
export const thingsOf = (
  store: LangiumDocuments,
  documents: readonly TubDocument[],
  stagesOf: (document: TubDocument) => Stages,
): Things => {
  const things = new Map<ExistingFile, ThingContent>();
  for (const document of documents) {
    for (const { statement, uri } of thingFiles(store, document)) {
      if (uri) things.set(statement, thingAt({ store, stagesOf, user: document }, uri));
    }
  }
  return things;
};

type ThingContent = ThingMesh | FoldedThing | Drawing | MeshFault | 'missing';

interface Asking {
  readonly store: LangiumDocuments;
  readonly stagesOf: (document: TubDocument) => Stages;
  readonly user: TubDocument;
}

const thingAt = ({ store, stagesOf, user }: Asking, uri: URI): ThingContent => {
  if (!uri.path.endsWith('.tub')) {
    if (!isMeshFile(uri.path)) return { fault: 'is no file that can be read here, which ends in .tub, .stl or .dxf' };
    return meshAt(store, uri) ?? 'missing';
  }
  const document = store.getDocument(uri) as TubDocument | undefined;
  if (!document) return 'missing';
  if (open.has(document) || document === user) return { fault: 'takes itself for a thing that stands there already' };
  open.add(user);
  try {
    return foldedTub(stagesOf(document));
  } finally {
    open.delete(user);
  }
};

/** mm. Chords of bends and round holes of a tub that is taken as a thing. */
const CHORD_ERROR = 0.1;

const foldedTub = memoBy((stages: Stages): FoldedThing | MeshFault => {
  const mesh = meshOfTub(stages);
  const { panels, sheets } = stages.tub;
  return 'fault' in mesh ? mesh : { mesh, panels, sheets, faces: stages.shape().faces };
});

const meshOfTub = ({ folded, existing, tub }: Stages): ThingMesh | MeshFault => {
  const parts = [...folded(), ...existing()]
    .filter((part) => part !== undefined)
    .map((part) => meshOf(part, CHORD_ERROR));
  const meshes = [...parts, ...(tub.things ?? []).map(({ mesh }) => mesh)];
  if (meshes.length === 0) return { fault: 'holds no panel that can be folded' };
  const positions: Vec3[] = [];
  const triangles: (readonly [number, number, number])[] = [];
  for (const mesh of meshes) {
    const first = positions.length;
    positions.push(...mesh.positions);
    triangles.push(...mesh.triangles.map(([a, b, c]) => [a + first, b + first, c + first] as const));
  }
  return { positions, triangles, isClosed: isClosed(triangles, positions.length) };
};
