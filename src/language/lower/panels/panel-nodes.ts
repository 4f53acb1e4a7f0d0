import { isFlange, isPanel, isSide, isStrip } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { evaluatedStatementsOf } from '../text/statements.js';
import { placedPanelsIn } from './placed-panels.js';
import type { PanelNode } from '../values/values.js';

/** Every statement that makes a panel, in the order of the text, legs in their strip's place; what is made of groups comes last. */
export function* panelNodes(lowering: Lowering): Generator<PanelNode> {
  for (const file of lowering.files) {
    for (const statement of evaluatedStatementsOf(file)) {
      if (isPanel(statement) || isSide(statement) || isFlange(statement)) yield statement;
      if (isStrip(statement)) yield* statement.legs ?? [];
    }
  }
  yield* placedPanelsIn(lowering);
}
