import { isToPreview } from '../preview-messages.js';
import type { FromPreview, PreviewState, ToPreview, View } from '../../language/protocol.js';

/** What stays over hiding, showing and reloading the preview. */
export interface KeptState extends PreviewState {
  readonly cameras: Readonly<Partial<Record<View, unknown>>>;
  readonly table: boolean;
  /** The variant on show; undefined: the tub as it is written. */
  readonly variant?: string | undefined;
}

interface EditorApi {
  postMessage(message: FromPreview): void;
  getState(): KeptState | undefined;
  setState(state: KeptState): void;
}

declare const acquireVsCodeApi: () => EditorApi;

/** The editor around the preview. */
export const editor: EditorApi = acquireVsCodeApi();

export const onMessage = (take: (message: ToPreview) => void): void => {
  window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (isToPreview(data)) take(data);
  });
};
