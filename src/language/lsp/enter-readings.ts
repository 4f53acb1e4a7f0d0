import { CstUtils } from 'langium';
import type { CodeAction, Range } from 'vscode-languageserver-types';
import { profileOf } from '../../analysis/built/profile.js';
import { toDeg } from '../../analysis/model/wording.js';
import type { Evaluation } from '../analyse.js';
import { isMade, isStrip, type Strip, type TubFile } from '../generated/ast.js';
import { nameOf, targetOf } from '../lower/references.js';

/** Decimals of a degree that a gauge shows. */
const GAUGE_DECIMALS = 1;

/**
 * Offered on the word or the name of a strip of which nothing is read yet: writes its `made` with what the gauge is to read at each bend, to be typed over.
 * One edit, undone as one.
 */
export const enterReadings = ({ document, tub }: Evaluation, { start }: Range, kind: string): readonly CodeAction[] => {
  const file = document.parseResult.value as TubFile;
  const root = file.$cstNode;
  const leaf = root && CstUtils.findLeafNodeBeforeOffset(root, document.textDocument.offsetAt(start) + 1);
  const node = isStrip(leaf?.astNode) && [leaf.astNode.name, 'strip'].includes(leaf.text) ? leaf.astNode : undefined;
  const strip = node && tub.strips.find(({ name }) => name === nameOf(node));
  const profile = strip && profileOf(tub, strip);
  if (!node || !profile || profile.bends.length === 0 || isRead(file, node)) return [];
  const lines = profile.bends.map(({ bend, turn }) => {
    const [a, b] = tub.bends[bend].panels.map((panel) => tub.panels[panel].name);
    return `    bend ${a} ${b} reads ${Number(toDeg(Math.abs(turn)).toFixed(GAUGE_DECIMALS))} deg`;
  });
  const text = document.textDocument.getText();
  const end = document.textDocument.positionAt(text.length);
  const newText = `${text.endsWith('\n') ? '' : '\n'}\nmade ${nameOf(node)} {\n${lines.join('\n')}\n}\n`;
  return [
    {
      title: `Enter readings of \`${nameOf(node)}\``,
      kind,
      edit: { changes: { [document.uri.toString()]: [{ range: { start: end, end }, newText }] } },
    },
  ];
};

const isRead = (file: TubFile, strip: Strip): boolean =>
  (file.statements ?? []).some((each) => isMade(each) && targetOf(each.part) === strip);
