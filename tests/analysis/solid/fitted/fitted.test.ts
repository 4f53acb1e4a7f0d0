/** Clips, frames and lips as bodies: their volumes against the flats that are cut for them, and that none takes room of its panels. */
import { beforeAll, describe, expect, test } from 'vitest';
import { areaOfContour } from '../../../../src/analysis/geometry/contour.js';
import { stepFiles, glbFiles } from '../../../../src/analysis/export/solid/solid-files.js';
import type { Stages } from '../../../../src/analysis/stages/stages.js';
import { analyseText } from '../../../support/analyse-text.js';
import { casesOf } from '../../../support/cases.js';
import { seededUniform } from '../../../support/random/random.js';
import { meshBodies } from '../../../support/oracles/mesh-bodies.js';
import { solidKernel } from '../../../support/oracles/solid-kernel.js';

let bodies: Awaited<ReturnType<typeof meshBodies>>;
let kernel: Awaited<ReturnType<typeof solidKernel>>;
beforeAll(async () => {
  [bodies, kernel] = await Promise.all([meshBodies(), solidKernel()]);
});

const corner = (degrees: number, seam: string): string => {
  const [y, z] = [120 * Math.cos((degrees * Math.PI) / 180), 120 * Math.sin((degrees * Math.PI) / 180)];
  return `units mm
sheet skin = stainless thickness 1.2 radius 1.6
panel base of skin = (0, 0, 0) (200, 0, 0) (200, 120, 0) (0, 120, 0)
panel wall of skin = (0, 0, 0) (200, 0, 0) (200, ${y}, ${z}) (0, ${y}, ${z})
seam base wall { ${seam} }
`;
};

const parts = (stages: Stages) => stages.folded().map((part) => bodies.bodyOf(part!));

describe('loose clips', () => {
  test('have the volume of the flat that is cut for them, less what a bend draws from its middle, and lie on both panels', () => {
    const uniform = seededUniform(67);
    for (let i = 0; i < casesOf(3); i++) {
      const degrees = i % 3 === 2 ? 200 + 90 * uniform() : 60 + 90 * uniform();
      const text = corner(degrees, `tabs loose 18 wide ${(14 + 8 * uniform()).toFixed(2)} deep every 60 ${i % 2 ? 'rivets 3.2 every 30' : 'spots 1'} weld tig`); // prettier-ignore
      const { stages } = analyseText(text, { rules: [] });
      const flats = stages.loosePieces();
      const clips = stages.fitted();
      expect(clips).toHaveLength(flats.reduce((sum, { quantity }) => sum + quantity, 0));
      const [flat] = flats;
      const area = Math.abs(areaOfContour(flat.outline)) - flat.holes.reduce((sum, { contour }) => sum + Math.abs(areaOfContour(contour)), 0); // prettier-ignore
      const [{ allowance, angle, radius }] = flat.bends;
      // In the round the metal is as long as its middle, in the flat as its neutral line.
      const gained = (angle * (radius + 0.6) - allowance) * 18;
      for (const { body } of clips) {
        const solid = kernel.solidOf(body);
        const mesh = bodies.bodyOf(body);
        expect(solid.volume() / 1.2, text).toBeCloseTo(area + gained, 0);
        expect(Math.abs(mesh.volume() - solid.volume()), text).toBeLessThan(0.5);
        // They lie on both panels: moved towards them by 0.1 mm they are in them, where they are they are not.
        for (const part of parts(stages)) expect(bodies.commonOf(mesh, part), text).toBeLessThan(0.5);
        expect(mesh.minGap(parts(stages)[0], 10)).toBeLessThan(1e-3);
        expect(mesh.minGap(parts(stages)[1], 10)).toBeLessThan(1e-3);
      }
    }
  });

  test('are flat straps over panels in one plane', () => {
    const { stages } = analyseText(corner(180, 'tabs loose 20 wide 15 deep every 70 spots 1 weld tig'), { rules: [] });
    const [{ body }] = stages.fitted();
    expect(body.rolls).toEqual([]);
    expect(kernel.solidOf(body).volume()).toBeCloseTo(1.2 * 20 * 30, 3);
  });
});

describe('lips and frames', () => {
  const text = `units mm
sheet skin = stainless thickness 1.2 radius 1.6
panel base of skin = (0, 0, 0) (400, 0, 0) (400, 300, 20) (0, 300, 20)
outlet drain in base at center(base) diameter 40 { lip 15  strainer mesh 40 size 90 by 80 bolted M5 }
outlet high in base at (60, 60, 4) diameter 30 { raised 25 }
`;

  test('are short pipes of the bore of their outlet, and a plate with a window and holes', () => {
    const { stages } = analyseText(text, { rules: [] });
    const volumes = new Map(stages.fitted().map(({ body }) => [body.name, kernel.solidOf(body).volume()]));
    const ring = (bore: number, high: number): number => (Math.PI / 4) * ((bore + 2.4) ** 2 - bore ** 2) * high;
    expect(volumes.get('lip of drain')).toBeCloseTo(ring(40, 15), -1);
    expect(volumes.get('raised edge of high')).toBeCloseTo(ring(30, 25), -1);
    const [frame] = stages.loosePieces();
    const area = Math.abs(areaOfContour(frame.outline)) - frame.holes.reduce((sum, { contour }) => sum + Math.abs(areaOfContour(contour)), 0); // prettier-ignore
    expect(volumes.get('drain frame')! / 1.2).toBeCloseTo(area, 0);
    const [base] = parts(stages);
    for (const { body } of stages.fitted()) expect(bodies.commonOf(bodies.bodyOf(body), base)).toBeLessThan(0.1);
  });

  test('are in the solids that leave', () => {
    const { stages } = analyseText(text, { rules: [] });
    const [step] = [...stepFiles(stages)];
    const [glb] = [...glbFiles(stages)];
    for (const name of ['lip of drain', 'raised edge of high', 'drain frame']) {
      expect(String(step.content)).toContain(name);
      expect(Buffer.from(glb.content as Uint8Array).toString('latin1')).toContain(name);
    }
  });

  test('count where things are kept clear', () => {
    const post = `existing post {\n    panel under of skin metal down = (0, 0, -40) (400, 0, -40) (400, 300, -20) (0, 300, -20)\n}\nclear post tub at least 1\n`; // prettier-ignore
    const [{ nearest }] = analyseText(text + post).stages.clears();
    // 40 mm below, measured square to both, less the sheet and the lip.
    expect(nearest.gap).toBeCloseTo(40 * (300 / Math.hypot(300, 20)) - 1.2 - 15, 6);
  });
});

describe('distances to rounds', () => {
  test('are never told too large, and at most 0.01 mm too small', () => {
    const uniform = seededUniform(71);
    for (let i = 0; i < casesOf(3); i++) {
      const radius = 1 + 30 * uniform();
      const { stages } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius ${radius}
strip floor of skin from (0, 300, 0) heading front across right 300 {
    panel base 300 level
    panel front 150 rising 90 deg
}
existing post {
    panel face of skin metal front = (50, -30, -60) (250, -30, -60) (250, ${20 * uniform()}, -110) (50, ${20 * uniform()}, -110)
}
clear post tub at least 1
`.replace(/, ([\d.]+), -110\) \(50, [\d.]+,/, ', $1, -110) (50, $1,')); // prettier-ignore
      const [{ nearest }] = stages.clears();
      const gap = kernel.solidOf(stages.folded()[0]!).minGap(kernel.solidOf(stages.existing()[0]), 1000);
      expect(nearest.gap).toBeLessThan(gap + 0.005);
      expect(nearest.gap).toBeGreaterThan(gap - 0.02);
    }
  });
});
