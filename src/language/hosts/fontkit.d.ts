/** As much of the font library as setting letters one by one takes. */
declare module 'fontkit' {
  export interface Glyph {
    readonly id: number;
    readonly advanceWidth: number;
    readonly codePoints: readonly number[];
  }
  export interface Font {
    readonly glyphForCodePoint: (code: number) => Glyph;
    layout: (text: string) => unknown;
  }
  export const create: (bytes: Uint8Array) => Font;
}
