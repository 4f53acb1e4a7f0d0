import { type BufferGeometry, type Mesh as ThreeMesh, type Object3D } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, test } from 'vitest';
import { writeGlb } from '../../../../src/analysis/export/solid/gltf.js';
import { meshOf } from '../../../../src/analysis/solid/boundary/mesh.js';
import { writeStl } from '../../../../src/analysis/export/solid/stl.js';
import { askewTray, foldByHand, volumeByFormula } from './fold-by-hand.js';

const folded = foldByHand(askewTray);
const mesh = meshOf(folded, 0.001);

const volumeOf = (geometry: BufferGeometry): number => {
  const at = geometry.getAttribute('position');
  const corner = (i: number): readonly number[] => {
    const v = geometry.index ? geometry.index.getX(i) : i;
    return [at.getX(v), at.getY(v), at.getZ(v)];
  };
  let sum = 0;
  for (let i = 0; i < (geometry.index?.count ?? at.count); i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    sum += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return sum / 6;
};

describe('STL', () => {
  test('read by an independent reader it has every triangle and the volume in mm3', () => {
    const bytes = writeStl('in mm', [mesh]);
    const geometry = new STLLoader().parse(bytes.buffer as ArrayBuffer);
    expect(geometry.getAttribute('position').count).toBe(3 * mesh.triangles.length);
    expect(Math.abs(volumeOf(geometry) / volumeByFormula(folded) - 1)).toBeLessThan(1e-4);
  });

  test('the header does not start with the word that marks the text form', () => {
    expect(new TextDecoder().decode(writeStl('in mm', [mesh]).slice(0, 5))).not.toBe('solid');
  });
});

describe('GLB', () => {
  test('read by an independent reader it has named parts, metres and y up', async () => {
    const bytes = writeGlb('basin', [
      { name: 'floor', mesh },
      { name: 'cheek', mesh },
    ]);
    const { scene } = await new GLTFLoader().parseAsync(bytes.buffer as ArrayBuffer, '');
    const parts = scene.children as Object3D[];
    expect(scene.name).toBe('basin');
    expect(parts.map((part) => part.name)).toEqual(['floor', 'cheek']);
    const geometry = (parts[0] as ThreeMesh).geometry;
    expect(Math.abs((volumeOf(geometry) * 1e9) / volumeByFormula(folded) - 1)).toBeLessThan(1e-4);
    geometry.computeBoundingBox();
    const tallest = Math.max(...mesh.positions.map((p) => p[2]));
    expect(geometry.boundingBox?.max.y).toBeCloseTo(tallest / 1000, 6);
  });
});
