/**
 * What crosses between the editor and the page of a preview is looked at on both sides: of another shape, it is left alone.
 * A page shows texts of others; what it says is not trusted, and neither is what a window kept of it.
 */
import type { FromPreview, PreviewState, ToPreview, View } from '../language/protocol.js';

type Holds = (value: unknown) => boolean;
type Shapes<T extends { readonly type: string }> = Readonly<Record<T['type'], Readonly<Record<string, Holds>>>>;

/** Longer than a key or a name of a tub can be. */
const LONGEST = 10_000;

const isText: Holds = (value) => typeof value === 'string' && value.length <= LONGEST;
const isTextOrNothing: Holds = (value) => value === undefined || isText(value);
const isCount: Holds = (value) => Number.isSafeInteger(value) && (value as number) >= 0;
const isAngle: Holds = (value) => typeof value === 'number' && value >= 0 && value < 90;
const isOneOf =
  (...all: readonly string[]): Holds =>
  (value) =>
    typeof value === 'string' && all.includes(value);
const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const areTexts: Holds = (value) => Array.isArray(value) && value.every(isText);

const VIEWS: Readonly<Record<View, true>> = {
  flat: true,
  folded: true,
  water: true,
  hours: true,
  bends: true,
  nest: true,
  choices: true,
  made: true,
};
const isView: Holds = (value) => typeof value === 'string' && Object.hasOwn(VIEWS, value);

const isFormat = isOneOf('svg', 'png');
const isUnits = isOneOf('mm', 'in');
const isSide = isOneOf('front', 'back', 'left', 'right');
const isLeaning: Holds = (value) =>
  value === undefined || (isRecord(value) && isSide(value.side) && isAngle(value.low_deg));
const isSeverity = isOneOf('error', 'warning', 'info');
/** A part of a file's name: no way into another folder. */
const isName: Holds = (value) => typeof value === 'string' && /^[\w -]{1,100}$/.test(value);
const isBase64: Holds = (value) => typeof value === 'string' && /^[A-Za-z0-9+/]*={0,2}$/.test(value);
const isPatch: Holds = (value) =>
  isRecord(value) &&
  isView(value.view) &&
  isCount(value.serial) &&
  isRecord(value.set) &&
  Object.values(value.set).every(isRecord) &&
  areTexts(value.remove) &&
  isText(value.name) &&
  isUnits(value.units) &&
  areTexts(value.variants) &&
  isAngle(value.within_deg);

const areFindings: Holds = (value) =>
  Array.isArray(value) &&
  value.every(
    (each) =>
      isRecord(each) && isText(each.code) && isText(each.message) && isSeverity(each.severity) && areTexts(each.keys),
  );

const fromPreview: Shapes<FromPreview> = {
  want: { view: isView, have: isCount, variant: isTextOrNothing, leaning: isLeaning },
  painted: { view: isView, serial: isCount, version: isCount },
  take: { key: isText },
  nest: { act: isOneOf('stop', 'go on') },
  pin: { act: isOneOf('pin', 'unpin'), keys: areTexts },
  reveal: { view: isView, key: isText, focus: isOneOf('text', 'preview') },
  finding: { index: isCount, act: isOneOf('text', 'fix', 'explain') },
  picture: { format: isFormat, name: isName, base64: isBase64 },
};

const toPreview: Shapes<ToPreview> = {
  scene: { file: isText, patch: isPatch },
  select: { keys: areTexts },
  findings: { view: isView, findings: areFindings },
  show: { view: isView },
  savePicture: { format: isFormat },
  moved: { uri: isText },
  gone: { reason: isText },
};

const hasShape = (message: unknown, shapes: Readonly<Record<string, Readonly<Record<string, Holds>>>>): boolean => {
  if (!isRecord(message) || typeof message.type !== 'string' || !Object.hasOwn(shapes, message.type)) return false;
  return Object.entries(shapes[message.type]).every(([name, holds]) => holds(message[name]));
};

export const isFromPreview = (message: unknown): message is FromPreview => hasShape(message, fromPreview);

export const isToPreview = (message: unknown): message is ToPreview => hasShape(message, toPreview);

/** What a window kept of a preview, as far as it can be used; undefined without the text that it showed. */
export const keptState = (kept: unknown): PreviewState | undefined => {
  if (!isRecord(kept) || !isText(kept.uri) || kept.uri === '') return undefined;
  return { uri: kept.uri as string, view: isView(kept.view) ? (kept.view as View) : 'flat' };
};
