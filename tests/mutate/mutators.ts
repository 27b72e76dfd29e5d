/** The small mistakes that are planted: which node of the syntax tree turns into which text. */
import ts from 'typescript';

export interface Change {
  readonly mutator: string;
  readonly start: number;
  readonly end: number;
  readonly after: string;
}

const K = ts.SyntaxKind;

const OPERATORS = new Map<ts.SyntaxKind, readonly [string, ...string[]]>([
  [K.LessThanToken, ['<=', '>=']],
  [K.LessThanEqualsToken, ['<', '>']],
  [K.GreaterThanToken, ['>=', '<=']],
  [K.GreaterThanEqualsToken, ['>', '<']],
  [K.EqualsEqualsEqualsToken, ['!==']],
  [K.ExclamationEqualsEqualsToken, ['===']],
  [K.PlusToken, ['-']],
  [K.MinusToken, ['+']],
  [K.AsteriskToken, ['/']],
  [K.SlashToken, ['*']],
  [K.PercentToken, ['*']],
  [K.LessThanLessThanToken, ['>>']],
  [K.GreaterThanGreaterThanToken, ['<<']],
  [K.GreaterThanGreaterThanGreaterThanToken, ['<<']],
  [K.AmpersandToken, ['|']],
  [K.BarToken, ['&']],
  [K.CaretToken, ['&']],
  [K.AmpersandAmpersandToken, ['||']],
  [K.BarBarToken, ['&&']],
  [K.PlusEqualsToken, ['-=']],
  [K.MinusEqualsToken, ['+=']],
]);

const NAMES = new Map([
  ['min', 'max'],
  ['max', 'min'],
  ['floor', 'ceil'],
  ['ceil', 'floor'],
  ['round', 'floor'],
  ['some', 'every'],
  ['every', 'some'],
  ['startsWith', 'endsWith'],
  ['endsWith', 'startsWith'],
  ['find', 'findLast'],
  ['indexOf', 'lastIndexOf'],
  ['push', 'unshift'],
  ['toLowerCase', 'toUpperCase'],
  ['toUpperCase', 'toLowerCase'],
]);

/** Calls that give back what they are asked of, changed: without the call the rest still runs. */
const DROPPED = new Set(['filter', 'sort', 'toSorted', 'reverse', 'toReversed', 'trim', 'slice', 'flat']);

/** All changes of this one node, its children left out. */
export function changesOf(node: ts.Node, file: ts.SourceFile): Change[] {
  const start = node.getStart(file);
  const whole = (mutator: string, ...afters: string[]): Change[] => afters.map((after) => ({ mutator, start, end: node.end, after }));
  if (ts.isBinaryExpression(node)) return binary(node, file);
  if (ts.isPrefixUnaryExpression(node) && node.operator === K.ExclamationToken) return whole('negation', node.operand.getText(file));
  if (ts.isNumericLiteral(node)) return whole('constant', ...numbersNear(node));
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node) || ts.isTemplateExpression(node))
    return node.getText(file).length > 2 ? whole('text', "''") : [];
  if (node.kind === K.TrueKeyword) return whole('truth', 'false');
  if (node.kind === K.FalseKeyword) return whole('truth', 'true');
  if (ts.isConditionalExpression(node)) return condition(node.condition, file);
  if (ts.isIfStatement(node) || ts.isWhileStatement(node)) return condition(node.expression, file);
  if (ts.isCallExpression(node)) return call(node, file);
  if (ts.isElementAccessExpression(node)) return nextPlace(node, file);
  if (ts.isExpressionStatement(node) || ts.isContinueStatement(node)) return whole('statement removed', ';');
  if (ts.isBlock(node) && ts.isFunctionLike(node.parent))
    return [{ mutator: 'early return', start: start + 1, end: start + 1, after: ' return;' }];
  return [];
}

function binary(node: ts.BinaryExpression, file: ts.SourceFile): Change[] {
  const token = node.operatorToken;
  const [start, end] = [token.getStart(file), token.end];
  const changes = (OPERATORS.get(token.kind) ?? []).map((after) => ({ mutator: `operator ${token.getText(file)}`, start, end, after }));
  if (token.kind !== K.QuestionQuestionToken) return changes;
  return [{ mutator: 'operator ??', start: node.getStart(file), end: node.end, after: `(${node.right.getText(file)})` }];
}

function condition(node: ts.Expression, file: ts.SourceFile): Change[] {
  return ['true', 'false'].map((after) => ({ mutator: 'condition', start: node.getStart(file), end: node.end, after }));
}

function call(node: ts.CallExpression, file: ts.SourceFile): Change[] {
  const callee = node.expression;
  if (!ts.isPropertyAccessExpression(callee)) return [];
  const name = callee.name.text;
  const other = NAMES.get(name);
  if (other) return [{ mutator: `${name} for ${other}`, start: callee.name.getStart(file), end: callee.name.end, after: other }];
  if (name === 'abs' && node.arguments[0])
    return [{ mutator: 'abs removed', start: node.getStart(file), end: node.end, after: `(${node.arguments[0].getText(file)})` }];
  if (!DROPPED.has(name) || callee.questionDotToken) return [];
  return [{ mutator: `${name} removed`, start: callee.expression.end, end: node.end, after: '' }];
}

function nextPlace(node: ts.ElementAccessExpression, file: ts.SourceFile): Change[] {
  const index = node.argumentExpression;
  if (ts.isStringLiteralLike(index)) return [];
  return [{ mutator: 'index', start: index.getStart(file), end: index.end, after: `(${index.getText(file)}) + 1` }];
}

/** Counts by one up and down; measured quantities by a quarter up and a fifth down. */
function numbersNear(node: ts.NumericLiteral): string[] {
  const value = Number(node.text);
  if (Number.isInteger(value) && value <= 1000) return value === 0 ? ['1'] : [String(value + 1), String(value - 1)];
  return [String(Number((value * 1.25).toPrecision(12))), String(Number((value * 0.8).toPrecision(12)))];
}
