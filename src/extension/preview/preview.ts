import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  CHOICE,
  CLOSE_PREVIEW,
  KEYS_AT,
  NEST_PIN,
  NEST_WORK,
  PLACE_OF,
  SHOWN_FINDINGS,
  type ChoiceParams,
  type FromPreview,
  type KeysAtParams,
  type Leaning,
  type NestPinParams,
  type NestWorkParams,
  type Place,
  type PlaceOfParams,
  type PreviewState,
  type ShownFinding,
  type ShownFindingsParams,
  type ToPreview,
  type ValueEdits,
  type View,
} from '../../language/protocol.js';
import { isFromPreview } from '../preview-messages.js';
import { writeValues } from '../write-values.js';
import { askAndWrite } from '../save-file.js';
import { previewPage } from './page.js';
import { SceneFeed, type Wanted } from './scene-feed.js';
import { TextCursor } from './text-cursor.js';

export interface PreviewEvents {
  closed(): void;
  focused(): void;
}

/** One preview of one text. */
export class Preview implements vscode.Disposable {
  private readonly id = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`;
  private readonly parts: vscode.Disposable[] = [];
  private text: vscode.Uri;
  private view: View;
  /** Name of the variant that is shown; undefined: the tub as it is written. */
  private variant: string | undefined;
  /** How the water is looked at; undefined: as the text has it stand. */
  private leaning: Leaning | undefined;
  private ready = false;
  private pending: ToPreview[] = [];
  /** What the page was last told of. */
  private findings: readonly ShownFinding[] = [];
  private readonly feed: SceneFeed;
  private readonly cursor: TextCursor;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly panel: vscode.WebviewPanel,
    extensionUri: vscode.Uri,
    state: PreviewState,
    private readonly events: PreviewEvents,
  ) {
    this.text = vscode.Uri.parse(state.uri);
    this.view = state.view;
    panel.title = `Preview ${this.fileName()}`;
    panel.iconPath = vscode.Uri.joinPath(extensionUri, 'media', 'icon.png');
    panel.webview.options = { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(extensionUri, 'dist')] };
    panel.webview.onDidReceiveMessage(
      (message: unknown) => isFromPreview(message) && this.receive(message),
      undefined,
      this.parts,
    );
    panel.onDidDispose(() => this.dispose(), undefined, this.parts);
    panel.onDidChangeViewState(() => panel.active && events.focused(), undefined, this.parts);
    this.feed = new SceneFeed(
      client,
      () => this.wanted(),
      (patch) => void panel.webview.postMessage({ type: 'scene', file: this.fileName(), patch } satisfies ToPreview),
    );
    this.cursor = new TextCursor(
      client,
      () => this.text,
      (position) => void this.selectAt(position),
    );
    this.parts.push(this.cursor);
    panel.webview.html = previewPage(panel.webview, extensionUri, state);
  }

  /** Of the text that it shows. */
  get uri(): vscode.Uri {
    return this.text;
  }

  get isActive(): boolean {
    return this.panel.active;
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  show(view: View): void {
    this.send({ type: 'show', view });
  }

  savePicture(format: 'svg' | 'png'): void {
    this.send({ type: 'savePicture', format });
  }

  /** The text was read anew, or the server is new. */
  linked(): void {
    this.feed.renew();
  }

  /** The checks of the text have run: what they found is marked in the picture. */
  analysed(): void {
    void this.markFindings();
  }

  /** The nest has come on: there is something new for those who look at it. */
  nested(): void {
    if (this.view === 'nest') this.linked();
  }

  /** The bends are planned: their strokes have numbers now. */
  planned(): void {
    if (this.view === 'flat') this.linked();
  }

  /** A new server knows nothing of what was sent. */
  restarted(): void {
    this.feed.forget();
  }

  /** Its text goes on under another name: picture, view and selection stay. */
  moveTo(uri: vscode.Uri): void {
    this.text = uri;
    this.panel.title = `Preview ${this.fileName()}`;
    this.send({ type: 'moved', uri: uri.toString() });
    this.feed.anew();
  }

  /** Its text is closed, and nothing else has it. */
  gone(): void {
    this.send({ type: 'gone', reason: `${this.fileName()} is closed. This is how it was last.` });
  }

  close(): void {
    this.panel.dispose();
  }

  dispose(): void {
    for (const part of this.parts.splice(0)) part.dispose();
    if (this.client.isRunning()) void this.client.sendNotification(CLOSE_PREVIEW, { preview: this.id });
    this.events.closed();
  }

  private receive(message: FromPreview): void {
    if (message.type === 'want') this.want(message);
    else if (message.type === 'painted') this.wasPainted(message.view, message.serial);
    else if (message.type === 'take') void this.take(message.key);
    else if (message.type === 'nest') this.workOnNest(message.act);
    else if (message.type === 'pin') void this.pin(message.act, message.keys);
    else if (message.type === 'finding') void this.goToFinding(message.index, message.act);
    else if (message.type === 'reveal') void this.revealText(message.view, message.key, message.focus);
    else void this.savePictureAs(message.name, message.format, message.base64);
  }

  private want({ view, have, variant, leaning }: Extract<FromPreview, { type: 'want' }>): void {
    this.view = view;
    this.variant = variant;
    this.leaning = leaning;
    this.ready = true;
    for (const message of this.pending.splice(0)) void this.panel.webview.postMessage(message);
    this.feed.restart(view, have);
  }

  private wanted(): Wanted | undefined {
    const { text, id: preview, view, variant, leaning } = this;
    return this.ready ? { text, preview, view, variant, leaning } : undefined;
  }

  private wasPainted(view: View, serial: number): void {
    if (this.feed.wasPainted(view, serial)) void this.markFindings();
    if (this.cursor.position && !this.feed.isAsking) void this.selectAt(this.cursor.position);
  }

  private send(message: ToPreview): void {
    if (this.ready) void this.panel.webview.postMessage(message);
    else this.pending.push(message);
  }

  private async revealText(view: View, key: string, focus: 'text' | 'preview'): Promise<void> {
    const params: PlaceOfParams = { uri: this.text.toString(), preview: this.id, view, key };
    const place = await this.client.sendRequest<Place | null>(PLACE_OF, params);
    if (place) await this.cursor.goTo(place, focus);
  }

  /** Marks are those of the last scene that was painted and of the last check that ran. */
  private async markFindings(): Promise<void> {
    if (!this.ready || !this.client.isRunning()) return;
    const { view } = this;
    const params: ShownFindingsParams = { uri: this.text.toString(), preview: this.id, view };
    const found = await this.client
      .sendRequest<readonly ShownFinding[] | null>(SHOWN_FINDINGS, params)
      .catch(() => null);
    if (!found || view !== this.view) return;
    this.findings = found;
    this.send({ type: 'findings', view, findings: found });
  }

  private async goToFinding(index: number, act: 'text' | 'fix' | 'explain'): Promise<void> {
    const finding = this.findings.at(index);
    if (!finding) return;
    if (act === 'explain') await vscode.commands.executeCommand('tubwright.explainFinding', finding.code);
    else if (finding.place) await this.cursor.goTo(finding.place, 'text');
    if (act === 'fix') await vscode.commands.executeCommand('editor.action.quickFix');
  }

  private async take(key: string): Promise<void> {
    const params: ChoiceParams = { uri: this.text.toString(), key };
    const edits = await this.client.sendRequest<ValueEdits | null>(CHOICE, params);
    if (edits) await writeValues(this.client, this.text, edits);
  }

  private workOnNest(act: NestWorkParams['act']): void {
    const variant = this.variant !== undefined && { variant: this.variant };
    const params: NestWorkParams = { uri: this.text.toString(), ...variant, act };
    if (this.client.isRunning()) void this.client.sendNotification(NEST_WORK, params);
  }

  private async pin(act: NestPinParams['act'], keys: readonly string[]): Promise<void> {
    const params: NestPinParams = { uri: this.text.toString(), keys, act };
    const edits = await this.client.sendRequest<ValueEdits | null>(NEST_PIN, params);
    if (edits && edits.edits.length > 0) await writeValues(this.client, this.text, edits);
  }

  private async selectAt(position: vscode.Position): Promise<void> {
    if (!this.client.isRunning()) return;
    const params: KeysAtParams = {
      uri: this.text.toString(),
      preview: this.id,
      view: this.view,
      position: { line: position.line, character: position.character },
    };
    const keys = await this.client.sendRequest<readonly string[] | null>(KEYS_AT, params).catch(() => null);
    if (keys) this.send({ type: 'select', keys });
  }

  private async savePictureAs(name: string, format: 'svg' | 'png', base64: string): Promise<void> {
    const base = this.fileName().replace(/\.tub$/, '');
    await askAndWrite(this.text, `${base}-${name}.${format}`, format, bytesOf(base64));
  }

  private fileName(): string {
    return this.text.path.split('/').pop() ?? 'tub';
  }
}

export const bytesOf = (base64: string): Uint8Array => {
  const binary = atob(base64);
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
};
