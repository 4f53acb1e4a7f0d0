import { NOISE } from '../../geometry/tolerance.js';
import { SEALING_PITCH } from '../../join/fasteners/strainer-frame.js';
import { inMm, named } from '../../model/wording.js';
import { severityOf, waterOver } from '../tell-leak.js';
import type { Rule, RuleFinding } from '../rule.js';

export const gasketPitch: Rule = {
  code: 'join/gasket-pitch',
  severity: 'warning',
  *check({ tub, joints, watertight }): Iterable<RuleFinding> {
    for (const [i, { name, at, gasket, fasteners }] of (tub.faceJoints ?? []).entries()) {
      if (gasket === 0) continue;
      const leak = watertight().leaks.find(({ kind, faceJoint }) => kind === 'faces' && faceJoint === i);
      const severity = leak ? severityOf(leak) : 'warning';
      const over = leak ? `; ${waterOver(leak)}` : '';
      if (!fasteners) {
        yield {
          message: `The gasket of ${named(name)} is pressed by nothing; it needs screws, such as \`bolted M6 every 60\`${over}`,
          at,
          severity,
          about: [name],
          values: {},
        };
        continue;
      }
      const shares = joints().faces.flatMap(({ joint, bands }) =>
        joint === i ? bands.flatMap(({ share }) => share ?? []) : [],
      );
      const needs = SEALING_PITCH * (fasteners.size ?? 0);
      const has = Math.max(0, ...shares);
      if (has <= needs + NOISE) continue;
      yield {
        message: `Screws of ${named(name)} stand ${inMm(has, needs)} apart; to keep the gasket pressed between them M${fasteners.size} stand at most ${inMm(needs, has)} apart${over}`,
        at: fasteners.at,
        severity,
        about: [name],
        values: { pitch_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'less' },
      };
    }
  },
};
