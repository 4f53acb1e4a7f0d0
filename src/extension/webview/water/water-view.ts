import type { FillStep, SceneItem, WaterFaceItem, WaterLevelItem, WaterPoolItem } from '../../../language/protocol.js';
import { html, plain, slider, toggle } from '../dom.js';
import type { LegendEntry } from '../around/legend.js';
import type { Place } from '../around/marks.js';
import { lengthText, volumeText } from '../units.js';
import { parallelViews } from '../solid/parallel-views.js';
import type { SceneChanges } from '../store.js';
import type { ViewEvents } from '../view.js';
import type { SolidPiece, V3 } from '../solid/piece.js';
import { depthBands } from './depth-bands.js';
import { tintOfSlope } from './slope-bands.js';
import { LeanControl } from './lean-control.js';
import { waterLegend } from './water-legend.js';
import { pieceOfFace, pieceOfSurface, type DepthBands } from './water-pieces.js';
import { SpaceView } from '../solid/space-view.js';
import type { SpaceLabel } from '../solid/space-labels.js';
import { wantsMotion } from '../solid/streams.js';
import { flowPiece, linesPiece, slopeArrows, splashPiece, WALL } from './water-lines.js';

/** High enough to look over the front into the tub. */
const FROM: V3 = [0.12, -0.5, 1.15];

/** How places that matter are marked. */
const MARKS = { outlet: 'ring', overflow: 'cross', leak: 'cross', crest: 'none' } as const;

/** The wet side: how steep each face is, which way the water takes, where it stays, and how far it rises. */
export class WaterView extends SpaceView {
  readonly controls: HTMLElement;
  private readonly faces = new WeakMap<SceneItem, SolidPiece>();
  /** Faces without their slope: under standing water it matters no more. */
  private readonly bare = new WeakMap<SceneItem, SolidPiece>();
  /** With the shades that it was made for. */
  private readonly stood = new WeakMap<SceneItem, { readonly bands: DepthBands; readonly piece: SolidPiece }>();
  private readonly arrows = new WeakMap<SceneItem, SolidPiece>();
  private plugged = false;
  private running = true;
  /** How far the plugged tub is filled, 0..1. */
  private filled = 1;
  private readonly run: HTMLButtonElement;
  private readonly filling: HTMLElement;
  private readonly held = html('output', { class: 'angle' });
  private readonly plug: HTMLButtonElement;
  private readonly lean: LeanControl;

  constructor(events: ViewEvents) {
    super(events, { solid: false, label: 'Water in the tub', from: FROM }, 'Where the water goes');
    this.plug = toggle('Drain plugged', 'Show the liquid level with every outlet plugged', (isOn) => {
      this.plugged = isOn;
      this.offer();
      this.draw();
    });
    this.run = toggle('Running', 'Show the water on its way', (isOn) => {
      this.running = isOn;
      this.drawStreams();
    });
    this.run.setAttribute('aria-pressed', 'true');
    this.filling = slider('Fill', 100, (value) => {
      this.filled = value / 100;
      this.draw();
    });
    this.filling.append(this.held);
    this.lean = new LeanControl((leaning) => events.leaned(leaning));
    this.controls = html(
      'div',
      { class: 'controls' },
      this.run,
      this.plug,
      this.filling,
      this.lean.element,
      ...parallelViews(this.space),
    );
  }

  override update(changes: SceneChanges): void {
    this.plug.hidden = ![...changes.items.values()].some((item) => item.kind === 'water-level');
    super.update(changes);
    this.offer();
  }

  protected drawChosen(): void {
    this.draw();
  }

  override shown(): void {
    super.shown();
    this.drawStreams();
  }

  override placeOf(key: string): Place | undefined {
    const item = this.items.get(key);
    const point = item?.kind === 'water-spot' ? item.point : item?.kind === 'water-pool' ? item.deepest : undefined;
    if (point) return beside(this.space.placeOf(point));
    return super.placeOf(key);
  }

  /** Of what is drawn at the moment, and of nothing else. */
  legend(): readonly LegendEntry[] {
    return waterLegend([...this.items.values()], { plugged: this.plugged, bands: this.bands() });
  }

  offerLean(within: number): void {
    this.lean.offer(within);
  }

  /** The controls that there is something for. */
  private offer(): void {
    const all = [...this.items.values()];
    this.run.hidden = this.plugged || !all.some((item) => item.kind === 'water-flow') || !wantsMotion();
    this.filling.hidden = !this.plugged || !all.some((item) => item.kind === 'water-fill');
  }

  private drawStreams(): void {
    const flows = this.plugged ? [] : [...this.items.values()].filter((item) => item.kind === 'water-flow');
    this.space.setStreams(
      flows.map(({ points, rate_L_min }) => ({ points, width: widthOf(rate_L_min) })),
      this.running,
    );
  }

  /** The step to which the plugged tub is filled; undefined: full. */
  private step(): FillStep | undefined {
    const fill = [...this.items.values()].find((item) => item.kind === 'water-fill');
    if (!fill || this.filled >= 1) return undefined;
    return fill.steps[Math.min(fill.steps.length - 1, Math.floor(this.filled * (fill.steps.length + 1)))];
  }

  protected draw(): void {
    const step = this.step();
    const pieces: SolidPiece[] = [];
    const labels: SpaceLabel[] = [];
    for (const [key, item] of this.items) {
      if (item.kind === 'water-face') {
        pieces.push(...this.facePieces(key, item));
        const chosen = this.chosen.includes(key);
        const words = chosen ? `${item.name} ${plain(item.slope_deg, 2)}°` : `${plain(item.slope_deg)}°`;
        if (this.plugged && item.bow)
          labels.push({ point: middle(item.corners), text: bowWords(item.bow), weight: chosen ? 7 : 2, mark: 'none' });
        else if (chosen || (item.slope_deg <= WALL && !this.plugged))
          labels.push({ point: middle(item.corners), text: words, weight: chosen ? 7 : 1, mark: 'none' });
      } else if (item.kind === 'water-pool' && !this.plugged) {
        pieces.push(this.standing(key, item));
        labels.push({ point: item.deepest, text: `stays ${lengthText(item.depth_mm)} deep`, weight: 4, mark: 'drop' });
      } else if (item.kind === 'water-fill' && this.plugged && step) {
        pieces.push(pieceOfSurface(key, step, this.bands()));
        labels.push(this.levelLabel(step.surface.flat(), step.volume_L, step.level_mm, 'holds'));
      } else if (item.kind === 'water-level' && this.plugged && !step) {
        pieces.push(this.standing(key, item));
        if (item.surface.length > 0)
          labels.push(this.levelLabel(item.surface.flat(), item.volume_L, item.level_mm, 'full:'));
      } else if (item.kind === 'water-flow' && !this.plugged) {
        pieces.push(this.cached(item, () => flowPiece(key, item.points)));
      } else if (item.kind === 'water-splash' && !this.plugged) {
        pieces.push(this.cached(item, () => splashPiece(key, item)));
        const text = `splashes ${lengthText(item.reaches_mm)} far`;
        labels.push({ point: item.lands, text, weight: 5, mark: 'none' });
      } else if (item.kind === 'water-spot' && (item.spot !== 'overflow' || this.plugged)) {
        labels.push({ point: item.point, text: item.text, weight: 6, mark: MARKS[item.spot] });
      }
    }
    this.space.setPieces(pieces);
    this.space.setLabels(labels);
    this.drawStreams();
    // The legend is that of what is drawn now.
    this.events.moved();
  }

  private levelLabel(points: readonly V3[], litres: number, level: number, head: string): SpaceLabel {
    const text = `${volumeText(litres)} at ${lengthText(level)}`;
    this.held.textContent = text;
    return { point: middle(points), text: `${head} ${text}`, weight: 5, mark: 'none' };
  }

  private facePieces(key: string, face: WaterFaceItem): SolidPiece[] {
    if (this.plugged) {
      const bare = this.bare.get(face) ?? pieceOfFace(key, face, 'dry');
      this.bare.set(face, bare);
      return [bare];
    }
    const piece = this.cached(face, () => pieceOfFace(key, face, tintOfSlope(face.slope_deg)));
    const known = this.arrows.get(face);
    if (known) return [piece, known];
    const arrow = linesPiece(`fall:${key}`, slopeArrows(face));
    this.arrows.set(face, arrow);
    return [piece, arrow];
  }

  /** The depths at which the shade changes: of the full tub, however far it is filled, or of what stays. */
  private bands(): DepthBands {
    const depths = [...this.items.values()].flatMap((item) =>
      item.kind === (this.plugged ? 'water-level' : 'water-pool') ? item.depths.flat() : [],
    );
    return depthBands(depths.reduce((most, depth) => Math.max(most, depth), 0));
  }

  private standing(key: string, item: WaterPoolItem | WaterLevelItem): SolidPiece {
    const bands = this.bands();
    const seen = this.stood.get(item);
    if (seen?.bands.join() === bands.join()) return seen.piece;
    const piece = pieceOfSurface(key, item, bands);
    this.stood.set(item, { bands, piece });
    return piece;
  }

  private cached(item: SceneItem, make: () => SolidPiece): SolidPiece {
    const seen = this.faces.get(item);
    if (seen) return seen;
    const made = make();
    this.faces.set(item, made);
    return made;
  }
}

/** Full, the wall is not drawn bent: by so much it bows. */
const bowWords = ({ least_mm, most_mm }: NonNullable<WaterFaceItem['bow']>): string =>
  `bows ${lengthText(least_mm)} to ${lengthText(most_mm)}`;

/** mm. By the area of what runs in it. */
const widthOf = (rate: number): number => Math.min(26, 5 + 5 * Math.sqrt(rate));

/** Left of what marks the place itself. */
const beside = (place: Place | undefined): Place | undefined => place && [place[0] - 20, place[1]];

const middle = (corners: readonly V3[]): V3 => {
  const sum = corners.reduce<[number, number, number]>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  return [sum[0] / corners.length, sum[1] / corners.length, sum[2] / corners.length];
};
