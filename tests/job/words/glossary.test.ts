/** One glossary: what a label says when it is asked is what docs/terms.md says. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { glossaryTerms, meaningOf } from '../../../src/job/words/glossary.ts';

const docs = readFileSync(join(import.meta.dirname, '../../../docs/terms.md'), 'utf8');
const inDocs = docs
  .slice(docs.indexOf('## What the labels mean'))
  .split('\n')
  .flatMap((line) => /^- \*\*(.+)\*\*: (.+)$/.exec(line)?.slice(1, 3) ?? []);

test('stands in docs/terms.md word for word, and nothing more does', () => {
  expect(inDocs).toEqual(glossaryTerms.flatMap((term) => [term, meaningOf(term)]));
});

test('knows no label by chance', () => {
  expect(meaningOf('Print width')).toBeUndefined();
  expect(meaningOf('constructor')).toBeUndefined();
});

test('has only labels that some screen shows', () => {
  const folder = join(import.meta.dirname, '../../../src/benches');
  const screens = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.tsx'))
    .map((path) => readFileSync(join(folder, path), 'utf8'))
    .join('\n');
  for (const term of glossaryTerms)
    expect(screens.includes(`"${term}"`) || screens.includes(`'${term}'`), term).toBe(true);
});
