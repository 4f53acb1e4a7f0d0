import type { Shape, ShapeFault } from './shape.js';

/** The faults of one kind, in the order in which they were found. */
export const faultsOfKind = <K extends ShapeFault['kind']>(
  shape: Shape,
  kind: K,
): readonly Extract<ShapeFault, { kind: K }>[] =>
  shape.faults.filter((fault): fault is Extract<ShapeFault, { kind: K }> => fault.kind === kind);
