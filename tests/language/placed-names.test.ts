/** Panels of a tub that is taken as an existing thing, by their names: `machine.deck`. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../support/analyse-text.js';

const STALL = `units mm
sheet plate = steel thickness 2
existing frame {
    panel deck of plate metal up = (0, 0, 0) (400, 0, 0) (400, 300, 0) (0, 300, 0)
}
strip tray of plate from (0, 600, 0) heading front across right 400 {
    panel back 50 falling 90 deg
    panel bed 100 level
}
`;

const HUNG = `units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing stall from "stall.tub" at (1000, 0, 300) turned 90 deg about z
panel rail of skin metal down = (720, 20, 300) (980, 20, 300) (980, 80, 300) (720, 80, 300)
`;

const analyse = (statement: string) => analyseText(HUNG + statement, { files: { 'stall.tub': STALL } });

const told = (statement: string): readonly string[] =>
  analyse(statement).findings.flatMap(({ code, message }) => (code.startsWith('text/') ? [message] : []));

describe('a name after that of a thing of a file', () => {
  // By hand: the deck is turned about its origin, so that its 400 mm run to the back and its 300 to the left of x 1000.
  it('is its panel where it stands: faces that lie on it are joined, and its metal is there once', () => {
    const { stages, findings } = analyse('seam rail stall.deck { bolted M6 every 60 heads on stall.deck }');
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    const deck = stages.tub.panels.find(({ name }) => name === 'stall.frame.deck')!;
    expect(deck.corners.map((corner) => corner.map((x) => Math.round(x * 1e6) / 1e6 + 0))).toEqual([
      [1000, 0, 300],
      [1000, 400, 300],
      [700, 400, 300],
      [700, 0, 300],
    ]);
    const [contact] = stages.joints().faces;
    expect(contact.apart.map((x) => Math.abs(x))).toEqual([expect.closeTo(0, 6), expect.closeTo(0, 6)]);
    expect(contact.places.length).toBeGreaterThan(3);
    expect(stages.sharedRoom()).toEqual([]);
  });

  it('may be a leg, a seat, the middle of a panel, and what is written out in full', () => {
    expect(told('point mid = center(stall.tray.bed)')).toEqual([]);
    expect(told('point mid = center(stall.frame.deck)')).toEqual([]);
    const { stages } = analyse(
      'removable lid in stall.deck play 1 {\n    panel plate of skin metal down = (720, 20, 350) (980, 20, 350) (980, 80, 350) (720, 80, 350)\n}\n',
    );
    expect(stages.tub.panels[stages.tub.groups![1].seat!].name).toBe('stall.frame.deck');
  });

  it('that is none is told with what is like it, and that of no panel as what it is', () => {
    expect(told('seam rail stall.dek { weld tig }')).toEqual([
      '`dek` is not the name of a panel of "stall.tub"; did you mean `deck`',
    ]);
    expect(told('seam rail stall.tray.bet { weld tig }')[0]).toContain('did you mean `bed`');
    expect(told('seam rail stall.tray { weld tig }')[0]).toContain('is a thing of another file');
  });
});
