/** Every piece of text that a user of the product can read, with the place where it is written: strings of the source, README, page and manifest. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { ROOT, readSources } from './sources.ts';

export interface VisibleText {
  /** 'client/app/app.ts:12' */
  readonly where: string;
  readonly text: string;
}

/** Attributes of the page's elements that are read aloud or shown. */
const READ_ATTRIBUTE = /\s(?:title|aria-label|aria-description|alt|placeholder|label|summary)="([^"]*)"/g;
/** Properties whose value is shown even if it is one lower-case word. */
const SHOWN_PROPERTY = /^(title|says|name|label|words|text|placeholder|summary|headline|description|verb|figure|limit)$/;
/** Properties that hold what a user may type, in any words: the search's synonyms. */
const TYPED_PROPERTY = /^(synonyms|aliases)$/;

/** A word without a space that begins small, or has signs of a path or selector in it, is a key, an id or a class of the page's style. */
const isKey = (text: string): boolean => !/\s/.test(text.trim()) && /^[a-z0-9#./@:[+_-]|^[A-Z0-9_]+$|[/#=_{}]/.test(text.trim());

/** HTML without its tags, comments and styles; attributes that are read aloud stay. */
function withoutTags(html: string): string {
  const bare = html.replace(/<style[\s\S]*?<\/style>|<!--[\s\S]*?-->/g, ' ');
  const attributes = [...bare.matchAll(READ_ATTRIBUTE)].map(([, value]) => value);
  return [bare.replace(/<[^>]*>/g, ' '), ...attributes].join(' ');
}

/** Not shown: module names, types, property names, keys that something is compared with or looked up by. */
function isCode(node: ts.Node): boolean {
  const { parent } = node;
  return (
    ts.isImportDeclaration(parent) ||
    ts.isExportDeclaration(parent) ||
    ts.isLiteralTypeNode(parent) ||
    ts.isElementAccessExpression(parent) ||
    ts.isCaseClause(parent) ||
    (ts.isBinaryExpression(parent) && /^(?:[!=]==?|in)$/.test(parent.operatorToken.getText())) ||
    (ts.isPropertyAssignment(parent) && parent.name === node)
  );
}

/** The name of the property whose value the node is, also within an array or a choice; '' for none. */
function propertyOf(node: ts.Node): string {
  let n = node.parent;
  while (ts.isArrayLiteralExpression(n) || ts.isConditionalExpression(n) || ts.isParenthesizedExpression(n) || ts.isAsExpression(n))
    n = n.parent;
  return ts.isPropertyAssignment(n) ? n.name.getText().replace(/['"]/g, '') : '';
}

function textsOf(path: string, source: string): VisibleText[] {
  const file = ts.createSourceFile(path, source, ts.ScriptTarget.Latest, true);
  const found: VisibleText[] = [];
  const add = (node: ts.Node, text: string) => {
    const property = propertyOf(node);
    if (TYPED_PROPERTY.test(property) || text.trim() === '') return;
    if (isKey(text) && !SHOWN_PROPERTY.test(property)) return;
    found.push({ where: `${path}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}`, text });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTaggedTemplateExpression(node)) {
      const tag = node.tag.getText();
      const chunks = ts.isNoSubstitutionTemplateLiteral(node.template)
        ? [node.template.text]
        : [node.template.head.text, ...node.template.templateSpans.map((s) => s.literal.text)];
      if (tag === 'html' || tag === 'svg') add(node, withoutTags(chunks.join('…')));
      else if (tag !== 'css') add(node, chunks.join('…'));
      if (!ts.isNoSubstitutionTemplateLiteral(node.template)) for (const s of node.template.templateSpans) visit(s.expression);
      return;
    }
    if (ts.isTemplateExpression(node)) {
      add(node, [node.head.text, ...node.templateSpans.map((s) => s.literal.text)].join('…'));
      for (const s of node.templateSpans) visit(s.expression);
      return;
    }
    if ((ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) && !isCode(node)) add(node, node.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** Lines of a page of prose or markup. */
const linesOf = (path: string, read: (text: string) => string = (t) => t): VisibleText[] =>
  existsSync(join(ROOT, path))
    ? read(readFileSync(join(ROOT, path), 'utf8'))
        .split('\n')
        .map((text, i) => ({ where: `${path}:${i + 1}`, text }))
    : [];

export const visibleTexts = (...folders: readonly string[]): VisibleText[] =>
  readSources(...folders).flatMap((s) => textsOf(s.path, s.text));

export const pageTexts = (): VisibleText[] => [
  // emphasis is no part of a word: _Parts_
  ...linesOf('README.md', (text) => text.replace(/\b_(?=\S)|(?<=\S)_\b/g, ' ')),
  ...linesOf('client/index.html', withoutTags),
  ...linesOf('client/public/manifest.webmanifest'),
];
