/** Two independent general-purpose drawing readers behind one face. */
import * as dxf from 'dxf';
import dxfParser, { type IDxf } from 'dxf-parser';
import type { DxfVertex } from './dxf-reader.js';

export interface ReadDrawing {
  readonly unitCode: unknown;
  readonly layers: readonly string[];
  /** Closed contours on a layer. */
  readonly contoursOn: (layer: string) => readonly (readonly DxfVertex[])[];
}

interface AnyEntity {
  readonly layer?: string;
  readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
}

/** Its types describe another module layout than its code has: the default export is the class itself. */
const Parser = dxfParser as unknown as new () => { parseSync: (text: string) => IDxf | null };

const verticesOf = (entity: AnyEntity): DxfVertex[] =>
  (entity.vertices ?? []).map(({ x, y, bulge }) => ({ x, y, bulge: bulge ?? 0 }));

const drawingOf = <E extends AnyEntity>(
  entities: readonly E[],
  unitCode: unknown,
  isClosed: (entity: E) => boolean,
): ReadDrawing => ({
  unitCode,
  layers: entities.map((entity) => entity.layer ?? ''),
  contoursOn: (layer) => entities.filter((entity) => entity.layer === layer && isClosed(entity)).map(verticesOf),
});

export const readWithDxf = (text: string): ReadDrawing => {
  const file = dxf.parseString(text);
  return drawingOf(file.entities, file.header.insUnits, (entity) => entity.closed === true);
};

export const readWithDxfParser = (text: string): ReadDrawing => {
  const file = new Parser().parseSync(text);
  return drawingOf(
    file?.entities ?? [],
    file?.header.$INSUNITS,
    (entity) => 'shape' in entity && entity.shape === true,
  );
};
