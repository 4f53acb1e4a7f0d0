declare module 'occt-import-js' {
  interface KernelMesh {
    readonly name: string;
    readonly attributes: { readonly position: { readonly array: readonly number[] } };
    readonly index: { readonly array: readonly number[] };
    readonly brep_faces: readonly unknown[];
  }
  interface ReadFile {
    readonly success: boolean;
    readonly root: unknown;
    readonly meshes: readonly KernelMesh[];
  }
  interface Kernel {
    readonly ReadStepFile: (content: Uint8Array, options: object) => ReadFile;
  }
  const start: () => Promise<Kernel>;
  export default start;
}
