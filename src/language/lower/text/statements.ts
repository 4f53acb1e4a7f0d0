import { madeGroupsOf } from '../../made-groups.js';
import { isGroup, type GroupStatement, type Statement, type TubFile } from '../../generated/ast.js';

/** The statements of a file in its order, those of a group after the group itself. */
export function* statementsOf(file: TubFile): Generator<Statement | GroupStatement> {
  for (const statement of file.statements ?? []) {
    yield statement;
    if (isGroup(statement)) yield* statement.statements ?? [];
  }
}

/** The same, and after all that is written what `mirror` and `repeat` make of groups. */
export function* evaluatedStatementsOf(file: TubFile): Generator<Statement | GroupStatement> {
  yield* statementsOf(file);
  for (const group of madeGroupsOf(file)) {
    yield group;
    yield* group.statements;
  }
}
