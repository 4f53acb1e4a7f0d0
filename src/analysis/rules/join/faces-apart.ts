import { hasKnownSides } from '../../join/faces/face-contacts.js';
import type { FaceContact } from '../../join/faces/face-contact.js';
import { inDeg, inMm, named } from '../../model/wording.js';
import { FACES_APART } from '../../model/tolerance.js';
import type { FaceJoint, Tub } from '../../model/tub.js';
import type { Rule, RuleFinding } from '../rule.js';

export const facesApart: Rule = {
  code: 'join/faces-apart',
  severity: 'error',
  *check({ tub, joints }) {
    for (const [i, joint] of (tub.faceJoints ?? []).entries()) {
      const contacts = joints().faces.filter((contact) => contact.joint === i);
      const { name, at } = joint;
      if (!joint.members.every(({ panels }) => panels.some((panel) => hasKnownSides(tub, panel)))) continue;
      const fault =
        contacts.length === 0 ? noContact(joint) : contacts.map((each) => faultOf(tub, joint, each)).find(Boolean);
      if (fault) yield { ...fault, at, about: [name] };
    }
  },
};

type Fault = Omit<RuleFinding, 'at' | 'about'>;

const noContact = ({ members: [a, b] }: FaceJoint): Fault => ({
  message: `${named(a.name)} and ${named(b.name)} do not lie over one another anywhere; screws that hold faces together need two parallel ones that do`,
  values: {},
});

const faultOf = (
  tub: Tub,
  { gasket }: FaceJoint,
  { faces, turned, apart, needs, way }: FaceContact,
): Fault | undefined => {
  const [a, b] = faces.map((face) => named(tub.panels[face].name));
  const [least, most] = apart;
  if (turned > 0) {
    return {
      message: `${a} and ${b} are ${inDeg(turned)} from parallel, and stand ${inMm(least, most)} to ${inMm(most, least)} apart; they need to be parallel to lie on one another`,
      values: { turned_deg: (turned * 180) / Math.PI, least_mm: least, most_mm: most },
    };
  }
  const has = (least + most) / 2;
  if (Math.abs(has - needs) <= FACES_APART) return undefined;
  const stands = has < 0 ? `stands ${inMm(-has, needs)} in` : `stands ${inMm(has, needs)} from`;
  const by = Math.abs(has - needs);
  const towards = has > needs ? 'nearer' : 'farther off';
  const axis = [0, 1, 2].find((k) => Math.abs(way[k]) > 0.999);
  const move = axis === undefined ? 0 : (has - needs) * Math.sign(way[axis]);
  return {
    message: `${a} ${stands} ${b}; ${gasket > 0 ? 'the pressed gasket' : 'metal on metal'} needs ${inMm(needs, has)}`,
    related: [
      {
        at: tub.panels[faces[0]].at,
        message:
          axis === undefined
            ? `Move it ${inMm(by, 0)} ${towards}`
            : `Move it ${inMm(Math.abs(move), 0)} ${WAYS[axis][move > 0 ? 0 : 1]}${axis === 2 ? `: its face to z ${round(faceAt(tub, faces[0]) + move)}` : ''}`,
      },
    ],
    values: { apart_mm: has, needed_mm: needs },
    measure: { has, needs, better: has > needs ? 'less' : 'more' },
  };
};

const WAYS = [
  ['right', 'left'],
  ['back', 'front'],
  ['up', 'down'],
] as const;

const faceAt = (tub: Tub, face: number): number => tub.panels[face].corners[0][2];

const round = (z: number): number => Math.round(z * 1000) / 1000;
