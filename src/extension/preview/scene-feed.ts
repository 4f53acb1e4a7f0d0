import type * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { SCENE, type Leaning, type SceneParams, type ScenePatch, type View } from '../../language/protocol.js';

/** What is to be shown, as it stands when the server is asked. */
export interface Wanted {
  readonly text: vscode.Uri;
  readonly preview: string;
  readonly view: View;
  readonly variant: string | undefined;
  readonly leaning: Leaning | undefined;
}

/**
 * Asks the server for what changed whenever the text was read anew, but never before the page has painted the last
 * answer: a fast typist gets fewer, newer pictures, and nothing piles up.
 */
export class SceneFeed {
  /** Serial of the last patch that the page has painted, by view. */
  private readonly painted = new Map<View, number>();
  private asking = false;
  private behind = false;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly wanted: () => Wanted | undefined,
    private readonly send: (patch: ScenePatch) => void,
  ) {}

  get isAsking(): boolean {
    return this.asking;
  }

  /** There is something new to be asked for. */
  renew(): void {
    this.behind = true;
    void this.ask();
  }

  /** The page knows this much, and waits for no answer. */
  restart(view: View, have: number): void {
    this.painted.set(view, have);
    this.anew();
  }

  /** Another text: nothing that is asked for now is waited for. */
  anew(): void {
    this.asking = false;
    this.renew();
  }

  /** A new server knows nothing of what was sent. */
  forget(): void {
    this.painted.clear();
    this.anew();
  }

  /** Is the page up to date now? */
  wasPainted(view: View, serial: number): boolean {
    this.painted.set(view, serial);
    this.asking = false;
    if (!this.behind) return true;
    void this.ask();
    return false;
  }

  private async ask(): Promise<void> {
    const wanted = this.wanted();
    if (this.asking || !wanted || !this.client.isRunning()) return;
    this.asking = true;
    this.behind = false;
    const { text, preview, view, variant, leaning } = wanted;
    const params: SceneParams = {
      uri: text.toString(),
      preview,
      view,
      have: this.painted.get(view) ?? 0,
      ...(variant !== undefined && { variant }),
      ...(leaning && { leaning }),
    };
    const patch = await this.client.sendRequest<ScenePatch | null>(SCENE, params).catch(() => null);
    if (patch) this.send(patch);
    else this.nothingNew();
  }

  /** The text went on while the server was at work: if it is linked by now, ask again. */
  private nothingNew(): void {
    this.asking = false;
    if (this.behind) void this.ask();
  }
}
