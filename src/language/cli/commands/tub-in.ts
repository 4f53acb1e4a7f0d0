import type { Stages } from '../../../analysis/stages/stages.js';
import { CannotRead, type AnalysedFile } from '../analysed.js';
import type { Host } from '../command.js';

/** A file that describes a tub. Rejects with `CannotRead` where it describes none. */
export const tubIn = async (
  file: string,
  variant: string | undefined,
  { analyse }: Host,
): Promise<AnalysedFile & { readonly stages: Stages }> => {
  const { stages, ...rest } = await analyse(file, variant);
  if (stages) return { stages, ...rest };
  throw new CannotRead(`${file} describes no tub that could be worked out; tubwright check says why`);
};

export const errorsIn = (file: string, count: number): string =>
  `${file} has ${count} ${count === 1 ? 'error' : 'errors'}`;
