/** Nodes that stand for panels of the file of an existing thing. */
import type { AstNode } from 'langium';
import { isExistingFile, type ExistingFile, type Panel } from '../../generated/ast.js';

const placed = new WeakMap<ExistingFile, Map<string, Panel>>();

/** The panel of that name in the file of a thing, as a panel of this text: the same object each time. */
export const placedNode = (thing: ExistingFile, name: string): Panel => {
  let known = placed.get(thing);
  if (!known) placed.set(thing, (known = new Map()));
  let node = known.get(name);
  if (!node) {
    node = { $type: 'Panel', $container: thing, $cstNode: thing.$cstNode, name, corners: [] } as unknown as Panel;
    known.set(name, node);
  }
  return node;
};

/** The thing that a panel is of; undefined for every other node. */
export const thingOfPlaced = ({ $container }: AstNode): ExistingFile | undefined =>
  isExistingFile($container) ? $container : undefined;
