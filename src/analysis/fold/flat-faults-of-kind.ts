import type { FlatFault, Unfolded } from './unfolded.js';

/** The faults of one kind in all parts. */
export const flatFaultsOfKind = <K extends FlatFault['kind']>(
  unfolded: readonly Unfolded[],
  kind: K,
): readonly Extract<FlatFault, { kind: K }>[] =>
  unfolded.flatMap(({ faults }) =>
    faults.filter((fault): fault is Extract<FlatFault, { kind: K }> => fault.kind === kind),
  );
