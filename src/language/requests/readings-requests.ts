/** Readings entered one after another in an editor, and what they teach. */
import { READ_AS_PLANNED } from '../../analysis/model/tolerance.js';
import { toDeg } from '../../analysis/model/wording.js';
import { allNamed, answer, evaluationOf, type Server } from '../asked-texts.js';
import type { TubDocument } from '../lower/text/sources.js';
import {
  CHECK_READING,
  LEARN,
  READINGS,
  WRITE_READINGS,
  type CheckedReading,
  type CheckReadingParams,
  type EditsOfText,
  type LearnResult,
  type ReadingBend,
  type ReadingPart,
  type ReadingsParams,
  type WriteReadingsParams,
} from '../protocol.js';
import { partsToRead, type BendToRead } from '../readings/bends-to-read.js';
import { learnFrom } from '../readings/learn.js';
import { toldOfTyped } from '../readings/reading-text.js';
import { readingEdits, statedReading, type TextEdits } from '../readings/write-readings.js';

export const serveReadings = (server: Server): void => {
  const { shared } = server;
  answer(server, READINGS, async ({ uri }: ReadingsParams, token): Promise<readonly ReadingPart[]> => {
    const evaluation = await evaluationOf(server, uri, token);
    const parts = (evaluation && (await partsToRead(evaluation))) ?? [];
    return parts.map(({ name, isInOrder, bends }) => ({ name, isInOrder, bends: bends.map(toldBend) }));
  });
  answer(
    server,
    CHECK_READING,
    async ({ uri, part, bend, typed }: CheckReadingParams, token): Promise<CheckedReading | null> => {
      const evaluation = await evaluationOf(server, uri, token);
      const meant = ((evaluation && (await partsToRead(evaluation))) ?? []).find(({ name }) => name === part)?.bends[
        bend
      ];
      if (!meant || typed.trim() === statedReading(meant)) return null;
      return toldOfTyped(typed, meant.planned) ?? null;
    },
  );
  answer(
    server,
    WRITE_READINGS,
    async ({ uri, part, typed }: WriteReadingsParams, token): Promise<EditsOfText | null> => {
      const evaluation = await evaluationOf(server, uri, token);
      const meant = ((evaluation && (await partsToRead(evaluation))) ?? []).find(({ name }) => name === part);
      const written =
        evaluation &&
        meant &&
        readingEdits(
          evaluation,
          meant,
          typed.map((each) => each ?? undefined),
        );
      return written ? editsOf(written) : null;
    },
  );
  answer(server, LEARN, async ({ uri }: ReadingsParams, token): Promise<LearnResult> => {
    await allNamed(server, token);
    const evaluation = await evaluationOf(server, uri, token);
    if (!evaluation) return { told: [], texts: [] };
    const { told, texts } = learnFrom(shared.workspace.LangiumDocuments, evaluation);
    return { told, texts: texts.map(editsOf) };
  });
};

const editsOf = ({ document, edits }: TextEdits & { readonly document: TubDocument }): EditsOfText => ({
  uri: document.uri.toString(),
  version: document.textDocument.version,
  edits,
});

/** As a gauge shows it. */
const gauged = (angle: number): string => `${Number(toDeg(angle).toFixed(1)) + 0} deg`;

const toldBend = (bend: BendToRead): ReadingBend => {
  const { panels, planned, best } = bend;
  const told =
    best === undefined || Math.abs(best - planned) <= READ_AS_PLANNED
      ? `planned ${gauged(planned)}`
      : `planned ${gauged(planned)}; bent to ${gauged(best)} it closes best what is made`;
  return { name: panels.join(' to '), expected: gauged(best ?? planned), told, stated: statedReading(bend) };
};
