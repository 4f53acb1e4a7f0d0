/** Lines of the data section of an ISO 10303-21 file. */
import type { Vec3 } from '../../geometry/vec.js';

/** A reference to an entity: `#12`. */
export type Ref = `#${number}`;

export interface EntityList {
  readonly lines: readonly string[];
  /** Adds the entity and returns its reference. */
  readonly add: (entity: string) => Ref;
}

export const createEntities = (): EntityList => {
  const lines: string[] = [];
  return {
    lines,
    add: (entity) => {
      lines.push(`#${lines.length + 1}=${entity};`);
      return `#${lines.length}`;
    },
  };
};

/** A real as the file wants it: with a point, and the shortest digits that give the same double back. */
export const real = (value: number): string => {
  if (!Number.isFinite(value)) throw new Error(`a length of the solid is ${value}`);
  const [digits, exponent] = String(value === 0 ? 0 : value).split('e');
  const mantissa = digits.includes('.') ? digits : `${digits}.`;
  return exponent === undefined ? mantissa : `${mantissa}E${exponent}`;
};

export const reals = (values: readonly number[]): string => `(${values.map(real).join(',')})`;
export const list = (refs: readonly string[]): string => `(${refs.join(',')})`;
export const flag = (isTrue: boolean): string => (isTrue ? '.T.' : '.F.');

/** A string in quotes; what is not plain ASCII goes as \X2\ (clause 6.4.3.2), control characters as spaces. */
export const text = (value: string): string => {
  const escaped = [...value].map((char) => {
    const code = char.codePointAt(0) ?? 32;
    if (code < 32 || code === 127) return ' ';
    if (char === "'") return "''";
    if (char === '\\') return '\\\\';
    if (code < 127) return char;
    return code > 0xffff ? `\\X4\\${hex(code, 8)}\\X0\\` : `\\X2\\${hex(code, 4)}\\X0\\`;
  });
  return `'${escaped.join('')}'`;
};

const hex = (code: number, digits: number): string => code.toString(16).toUpperCase().padStart(digits, '0');

export const point = (out: EntityList, at: Vec3): Ref => out.add(`CARTESIAN_POINT('',${reals(at)})`);
export const direction = (out: EntityList, along: Vec3): Ref => out.add(`DIRECTION('',${reals(along)})`);

export const placement = (out: EntityList, origin: Vec3, normal: Vec3, along: Vec3): Ref =>
  out.add(`AXIS2_PLACEMENT_3D('',${point(out, origin)},${direction(out, normal)},${direction(out, along)})`);
