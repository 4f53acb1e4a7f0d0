import { isNone, type Handling } from './handling.js';

/** ms. */
const HANDLING = 1100;
const STROKE = 1200;
const PAUSE = 500;

interface Phase {
  readonly ms: number;
  readonly draw: (share: number) => void;
}

/** How far a stroke is, and the part on its way to it: as a builder sets it, or a frame after the other. */
export class Acting {
  /** Of the stroke, 0..1. */
  share = 1;
  /** Of the handling before it, 0..1. */
  way = 1;
  private run = 0;
  private isActing = false;

  /** `drawn`: shows where it is; `isSeen`: whether anybody looks, if not it ends where it is. */
  constructor(
    private readonly drawn: () => void,
    private readonly isSeen: () => boolean,
  ) {}

  /** Lies still: at the end of what was acted out, else where it was set. */
  rest(): void {
    this.run++;
    if (this.isActing) [this.way, this.share] = [1, 1];
    this.isActing = false;
  }

  /** The handling, then the stroke, then, where more comes after it, a pause. */
  start(handling: Handling, more: boolean, done: () => void): void {
    this.rest();
    this.isActing = true;
    const set = (way: number, share: number): void => {
      [this.way, this.share] = [way, share];
      this.drawn();
    };
    const phases: readonly Phase[] = [
      ...(isNone(handling) ? [] : [{ ms: HANDLING, draw: (share: number) => set(share, 0) }]),
      { ms: STROKE, draw: (share) => set(1, share) },
      { ms: more ? PAUSE : 1, draw: () => undefined },
    ];
    this.act(phases, this.run, done);
  }

  private act([first, ...rest]: readonly Phase[], run: number, done: () => void): void {
    if (!first) {
      done();
      return;
    }
    let since: number | undefined;
    const frame = (now: number): void => {
      if (run !== this.run || !this.isSeen()) return;
      since ??= now;
      const share = Math.min(1, (now - since) / first.ms);
      first.draw(share);
      if (share < 1) requestAnimationFrame(frame);
      else this.act(rest, run, done);
    };
    first.draw(0);
    requestAnimationFrame(frame);
  }
}
