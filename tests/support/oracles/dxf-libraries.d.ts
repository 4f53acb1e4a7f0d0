/** The little that tests use of two drawing readers: one has no types, the other's do not resolve. */
declare module 'dxf' {
  interface ReadEntity {
    readonly layer: string;
    readonly closed?: boolean;
    readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
  }
  export function parseString(text: string): {
    readonly header: Readonly<Record<string, unknown>>;
    readonly entities: readonly ReadEntity[];
  };
}
