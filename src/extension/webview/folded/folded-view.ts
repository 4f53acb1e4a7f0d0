import type { BoxItem, PlateItem, Purpose } from '../../../language/protocol.js';
import { choice, html, plain, slider, toggle } from '../dom.js';
import type { LegendEntry } from '../around/legend.js';
import { readPalette } from '../palette.js';
import { lengthText } from '../units.js';
import { parallelViews } from '../solid/parallel-views.js';
import type { ViewEvents } from '../view.js';
import type { SolidPiece, V3 } from '../solid/piece.js';
import { pieceOfPlate, pieceOfRoll, pieceOfThing } from '../solid/pieces.js';
import { pieceOfBox, pieceOfOpening, pieceOfSeam, pieceOfSpan, pieceOfWay } from '../solid/around-pieces.js';
import { SpaceView } from '../solid/space-view.js';
import type { SpaceLabel } from '../solid/space-labels.js';

type Axis = 'none' | 'x' | 'y' | 'z';

/** The folded tub with true radii and thickness: turn it, take it apart, cut it open. */
export class FoldedView extends SpaceView {
  readonly controls: HTMLElement;
  private pieces: readonly SolidPiece[] = [];
  private named = false;
  private axis: Axis = 'none';
  private share = 0.5;
  /** How far the parts are drawn away from one another, 0..1. */
  private apart = 0;
  private readonly cutPlace = html('output', { class: 'angle' });

  constructor(events: ViewEvents) {
    super(events, { solid: true, label: 'Folded tub', from: [0.55, -1, 0.95] }, 'The folded tub');
    const names = toggle('Names', 'Show the names of the panels', (isOn) => {
      this.named = isOn;
      this.showLabels();
    });
    const where = slider('Cut at', 50, (value) => this.cutAt(this.axis, value / 100));
    where.append(this.cutPlace);
    where.hidden = true;
    const section = choice<Axis>(
      'Section',
      [
        ['none', 'none'],
        ['x', 'across x'],
        ['y', 'across y'],
        ['z', 'level'],
      ],
      (axis) => {
        where.hidden = axis === 'none';
        this.cutAt(axis, this.share);
      },
    );
    this.controls = html(
      'div',
      { class: 'controls' },
      names,
      slider('Take apart', 0, (value) => {
        const joins = (this.apart === 0) !== (value === 0);
        this.apart = value / 100;
        if (joins) this.draw();
        this.space.takeApart(this.apart);
        this.events.moved();
      }),
      section,
      where,
      toggle('Measure', 'Measure between two places that you pick', (isOn) => this.space.measure(isOn)),
      ...parallelViews(this.space),
    );
  }

  protected draw(): void {
    const pieces: SolidPiece[] = [];
    for (const [key, item] of this.items) {
      if (item.kind === 'plate') pieces.push(pieceOfPlate(key, item));
      else if (item.kind === 'roll') pieces.push(pieceOfRoll(key, item));
      else if (item.kind === 'thing') pieces.push(pieceOfThing(key, item));
      else if (item.kind === 'span') pieces.push(pieceOfSpan(key, item));
      else if (item.kind === 'way') pieces.push(pieceOfWay(key, item));
      // Between parts that are drawn away from one another nothing closes.
      else if (item.kind === 'seam' && this.apart === 0) pieces.push(pieceOfSeam(key, item));
      else if (item.kind === 'opening') pieces.push(pieceOfOpening(key, item));
      else if (item.kind === 'box') pieces.push(pieceOfBox(key, item));
    }
    this.pieces = pieces;
    this.space.setPieces(pieces);
    this.showLabels();
  }

  protected drawChosen(): void {
    this.showLabels();
  }

  legend(): readonly LegendEntry[] {
    const { wetMetal, dryMetal, bentMetal, cut, seam, warn, ink } = readPalette();
    const items = [...this.items.values()];
    const seams = this.apart === 0 ? items.filter((item) => item.kind === 'seam') : [];
    const line = (words: string, color: string, dash?: string): LegendEntry => ({ words, color, mark: 'line', dash });
    const patch = (words: string, color: string): LegendEntry => ({ words, color, mark: 'patch' });
    return [
      patch('wet side', wetMetal),
      patch('dry side', dryMetal),
      patch('bends and edges', bentMetal),
      ...(seams.some(({ isClosed }) => isClosed) ? [line('seam', seam)] : []),
      ...(seams.some(({ isClosed }) => !isClosed) ? [line('seam that nothing closes', warn, '4 3')] : []),
      ...(items.some((item) => item.kind === 'box' && item.room === 'tank') ? [line('tank', ink)] : []),
      ...(items.some((item) => item.kind === 'box' && item.room !== 'tank') ? [line('zone', ink, '3 2')] : []),
      ...(this.axis === 'none' ? [] : [patch('cut through', cut)]),
    ];
  }

  private cutAt(axis: Axis, share: number): void {
    this.axis = axis;
    this.share = share;
    const at = this.space.cutAt(axis === 'none' ? undefined : axis, share);
    this.events.moved();
    this.cutPlace.textContent = at === undefined ? '' : `${axis} ${lengthText(at)}`;
  }

  private showLabels(): void {
    const labels: SpaceLabel[] = [];
    const told = new Set<string>();
    for (const piece of this.pieces) {
      const item = this.items.get(piece.key);
      const chosen = this.chosen.includes(piece.key);
      if (item?.kind === 'plate' && (this.named || chosen))
        labels.push({ point: piece.middle, text: toldName(item), weight: chosen ? 2 : 1, mark: 'none' });
      else if ((item?.kind === 'plate' || item?.kind === 'thing') && item.purpose && !told.has(item.purpose.group)) {
        told.add(item.purpose.group);
        labels.push({ point: piece.middle, text: toldGroup(item.purpose), weight: 1, mark: 'none' });
      }
      if (chosen && item?.kind === 'seam')
        labels.push({ point: piece.middle, text: `${item.name}: ${item.closedBy}`, weight: 3, mark: 'none' });
      if (chosen && item?.kind === 'opening')
        labels.push({ point: piece.middle, text: item.name, weight: 3, mark: 'none' });
      if (item?.kind === 'box')
        labels.push({ point: topOf(item), text: `${item.name} (${ROOMS[item.room]})`, weight: 1, mark: 'none' });
      if (item?.kind === 'span' || item?.kind === 'way')
        labels.push({ point: piece.middle, text: item.text, weight: chosen ? 3 : 2, mark: 'none' });
      if (item?.kind === 'roll' && chosen)
        labels.push({ point: piece.middle, text: `${item.name} ${degrees(item.sweep)}°`, weight: 3, mark: 'none' });
    }
    this.space.setLabels(labels);
  }
}

const ROOMS = { tank: 'tank', dry: 'stays dry', clear: 'kept clear' } as const;

const topOf = ({ min, max }: BoxItem): V3 => [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, max[2]];

const toldGroup = ({ role, group }: Purpose): string => `${group} (${role})`;

const toldName = ({ name, purpose }: PlateItem): string => (purpose ? `${name} (${purpose.role})` : name);

const degrees = (angle: number): string => plain((angle * 180) / Math.PI);
