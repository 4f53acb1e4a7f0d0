import { plain } from '../model/wording.js';
import type { Axis, Curve, CurvePoint } from '../solve/curve.js';
import type { Stages } from '../stages/stages.js';
import { note } from './drawn.js';
import type { SceneEntry } from './scene-items.js';

/** The choices between the first two goals of the aim, once they are worked out; until then a note says how they come about. */
export const choiceScene = ({ tub }: Stages, curve: Curve | undefined): SceneEntry[] => {
  const at = tub.aim?.at ?? tub.at;
  if (!curve) return [note('no-choices', NOT_YET, at)];
  const { across, up, points } = curve;
  return [
    { key: 'choice-axes', at, item: { kind: 'choice-axes', across, up, told: undefined } },
    ...points.map((point, i): SceneEntry => ({
      key: choiceKey(i),
      at,
      item: {
        kind: 'choice',
        order: i,
        across: point.across,
        up: point.up,
        isChosen: point.isChosen,
        told: { what: valuesText(point), facts: [axisText(across, point.across), axisText(up, point.up)] },
      },
    })),
  ];
};

export const choiceKey = (index: number): string => `choice:${index}`;

const NOT_YET = 'No choices yet: they are worked out with the free values, for an aim with two goals that pull apart';

const valuesText = ({ values }: CurvePoint): string => values.map(({ name, text }) => `${name} ${text}`).join(', ');

const axisText = ({ wish, unit }: Axis, value: number): string =>
  `${wish}: ${plain(value, 3)}${unit === '' ? '' : ` ${unit}`}`;
