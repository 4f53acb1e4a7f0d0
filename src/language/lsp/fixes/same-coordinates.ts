import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { snapsByPair, type Snap } from '../../../analysis/shape/contact/snap-corners.js';
import { isCorner } from '../../generated/ast.js';
import type { Place } from '../../lower/text/sources.js';
import { plain } from '../plain.js';
import type { Fixer } from './fix.js';

/** Writes for every corner that is put onto another panel what stands there; nothing when one of them is computed. */
export const sameCoordinates: Fixer = function* (finding, { document, sources, stages }) {
  const { panels } = stages.tub;
  const stated = (panel: number, corner: number | undefined): Place | undefined => {
    const place = corner === undefined ? undefined : sources.place(panels[panel].cornerAts[corner]);
    return place?.document === document && isCorner(place.node) ? place : undefined;
  };
  const isMeant = (pair: readonly Snap[]): boolean =>
    panels[pair[0].onto.panel].name === finding.about[1] &&
    pair.some(({ panel, corner }) => panels[panel].cornerAts[corner] === finding.at);
  const pair = snapsByPair(stages.snaps).find(isMeant) ?? [];
  const edits = pair.flatMap(({ panel, corner, onto, place }) => {
    const own = stated(panel, corner);
    const other = stated(onto.panel, onto.corner);
    const newText = other ? document.textDocument.getText(other.range) : coordinates(place);
    return own ? [{ range: own.range, newText }] : [];
  });
  if (edits.length === 0 || edits.length < pair.length) return;
  yield { title: `Write the same coordinates as in \`${finding.about[1]}\``, edits, preferred: true };
};

const coordinates = (place: Vec3): string => `(${place.map((value) => `${plain(value, 4)} mm`).join(', ')})`;
