import { isGroup, type GroupStatement, type Statement, type TubFile } from '../../generated/ast.js';

/** The statements of a file in its order, those of a group after the group itself. */
export function* statementsOf(file: TubFile): Generator<Statement | GroupStatement> {
  for (const statement of file.statements ?? []) {
    yield statement;
    if (isGroup(statement)) yield* statement.statements ?? [];
  }
}
