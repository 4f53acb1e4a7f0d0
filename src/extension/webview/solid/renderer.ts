import { AmbientLight, DirectionalLight, Group, HemisphereLight, WebGLRenderer, type Light } from 'three';

/** Undefined: this machine has no WebGL. */
export const makeRenderer = (): WebGLRenderer | undefined => {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('webgl2', { antialias: true, alpha: true });
  if (!context) return undefined;
  const renderer = new WebGLRenderer({ canvas, context, antialias: true, alpha: true });
  renderer.setClearColor(0x000000, 0);
  return renderer;
};

/** The light of a workshop, which stays where it is. */
export const roomLights = (): Light[] => [
  new HemisphereLight(0xffffff, 0x8a8f96, 1.5),
  new AmbientLight(0xffffff, 0.55),
];

/** A light that goes with the eye, a little beside it. */
export const makeLamp = (): Group => {
  const light = new DirectionalLight(0xffffff, 1.1);
  light.position.set(0.3, 0.8, 0.5);
  return new Group().add(light);
};
