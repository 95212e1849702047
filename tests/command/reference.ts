import { DIRECTIONS, DYNAMICS, JUMPS, MARKS, STRESSES } from '../../grammar/marks';
import { PLAYER_KEYS } from '../../grammar/player-keys';
import { SETTINGS } from '../../grammar/settings';
import { expectedAfter } from '../../grammar/values/expected';
import { isParsed } from '../../grammar/values/read-value';
import { WRITTEN } from '../../grammar/values/value-tokens';
import type { ValueKind } from '../../grammar/values/value-tree';
import { createProgram } from '../../server/command/program';
import { HINT_WORDS } from '../../server/features/hint-words';
import { CODES } from '../../server/rules/check';
import { LEVELS } from '../../server/rules/levels';
import { PROJECT_MEMBERS } from '../../server/workspace/project';
import { readPage } from '../rules/page';
import { manifest } from '../support/manifest';
import { grammarReference } from './grammar-reference';

/** What a file made from the code must hold, by its path. */
export const MADE: Readonly<Record<string, () => string>> = {
  'client/guide/command-reference.md': commandReference,
  'client/guide/settings-reference.md': settingsReference,
  'client/guide/language-reference.md': languageReference,
  'client/guide/grammar-reference.md': grammarReference,
  'client/schemas/passagework.schema.json': projectSchema,
};

type Rows = readonly (readonly string[])[];

function table(headings: readonly string[], rows: Rows): string {
  // A bar would end the cell, even inside a code span (GitHub Flavored Markdown, “Tables”).
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`;
  return [line(headings), `|${headings.map(() => '---|').join('')}`, ...rows.map(line)].join('\n');
}

const code = (text: string) => `\`${text}\``;

function page(title: string, intro: string, ...parts: readonly string[]): string {
  return `${[`# ${title}`, intro, ...parts].join('\n\n')}\n`;
}

function commandReference(): string {
  const program = createProgram();
  const sections = program.commands.map((command) => {
    const words = command.registeredArguments.map((each) => (each.required ? `<${each.name()}>` : `[${each.name()}...]`));
    const rows = command
      .createHelp()
      .visibleOptions(command)
      .map(({ flags, description, defaultValue }) => [
        code(flags),
        `${description.replaceAll('<', '\\<')}.`,
        typeof defaultValue === 'string' ? code(defaultValue) : '',
      ]);
    return [
      `## ${command.name()}`,
      `${command.description()}.`,
      `\`passagework ${[command.name(), '[options]', ...words].join(' ')}\``,
      table(['option', 'does', 'otherwise'], rows),
    ].join('\n\n');
  });
  return page(
    'Every command and option',
    '[What to do with them](command.md): installing, hooks, CI. Without files the current folder is taken; of a folder, every passage in it;\n`-` is standard input.',
    ...sections,
  );
}

interface Setting {
  readonly default: unknown;
  readonly description?: string;
  readonly markdownDescription?: string;
  readonly enum?: readonly string[];
}

function settingsReference(): string {
  const { properties } = manifest.contributes.configuration as { readonly properties: Readonly<Record<string, Setting>> };
  const settings = Object.entries(properties).map(([name, { description, markdownDescription, default: otherwise }]) => [
    code(name),
    description ?? markdownDescription ?? '',
    code(JSON.stringify(otherwise)),
  ]);
  const commands = manifest.contributes.commands.map(({ category, title, command }) => {
    const keys = manifest.contributes.keybindings.filter((each) => each.command === command).map(({ key }) => code(key));
    return [`${category}: ${title}`, code(command), keys.join(', ')];
  });
  const members = PROJECT_MEMBERS.map((name) => [code(name), project()[name]?.description ?? '']);
  return page(
    'Every setting and command of the editor',
    '[`passagework.json`](command.md#what-a-collection-agrees-on) says for a folder what its players agree on; where it speaks, it comes before\nthe settings of the editor, and a line or comment of a passage comes before both.',
    '## passagework.json',
    table(['member', 'says'], members),
    '## Settings',
    table(['setting', 'says', 'otherwise'], settings),
    '## Command palette',
    table(['title', 'command', 'key'], commands),
  );
}

/** The words with which a value may begin, as its grammar has them. */
function openings(kind: ValueKind): string {
  const words = isParsed(kind) ? expectedAfter(kind, []).flatMap((type) => WRITTEN.get(type) ?? []) : [];
  return [...new Set(words)].map(code).join(' ');
}

function languageReference(): string {
  const settings = SETTINGS.map(({ key, value, meaning, example, betweenBars }) => [
    code(`${key}:`),
    meaning,
    openings(value),
    code(`${key}: ${example}`),
    betweenBars ? 'also between bars' : '',
  ]);
  const player = PLAYER_KEYS.map(({ key, value, meaning, example }) => [
    code(`${key}:`),
    meaning,
    openings(value),
    code(`${key}: ${example}`),
  ]);
  const hints = HINT_WORDS.map(({ text, group, meaning }) => [code(text), group, meaning]);
  const checks = CODES.map((each) => {
    const { title, severity } = readPage(each);
    return [code(each), title, severity];
  });
  return page(
    'Every setting, hint, comment and check of a passage',
    'How they go together is told in [the tour](tour.md).',
    '## Settings of a passage',
    table(['line', 'says', 'begins with', 'for example', ''], settings),
    '## Lines of a player file',
    table(['line', 'says', 'begins with', 'for example'], player),
    'and attempts, as in `III 1/5: 4 of 10`, `II fourth: 7 of 8`, `I stopped: 14 of 15`.',
    '## Hints',
    'Between brackets after a note.',
    table(['hint', 'about', 'means'], hints),
    '## Dynamics',
    `${DYNAMICS.map(code).join(' ')}: from here on. ${STRESSES.map(code).join(' ')}: a stress on the next note; those that end in \`p\` leave the music soft.`,
    '## What is printed over notes',
    'Before a note, or before the parentheses around several: `staccato A5`, `slur(staccato(A5 B5))`.',
    table(
      ['word', 'means'],
      MARKS.map(({ word, meaning }) => [code(word), meaning]),
    ),
    '## From here on',
    'Between notes.',
    table(
      ['word', 'means'],
      DIRECTIONS.map(({ word, meaning }) => [code(word), meaning]),
    ),
    '## Where the music goes on',
    'Beside a bar line. `ending 1` and `ending 2` open the endings of a repeat, each up to the repeat sign, the next ending or a double bar.',
    table(
      ['word', 'means'],
      JUMPS.map(({ word, meaning }) => [code(word), meaning]),
    ),
    '## Comments',
    table(
      ['comment', 'means'],
      [
        [code('// words'), 'Anything, to the end of the line.'],
        [
          code('// check: lone-third off'),
          'The level of a check for this line, or alone on a line for the next one. Several are parted by commas.',
        ],
        [code('// check file: lone-third off'), 'The same for the whole file.'],
      ],
    ),
    `Levels: ${LEVELS.map(code).join(' ')}.`,
    '## Checks',
    'Each has a page: `passagework explain CODE`, or the link on it in the editor.',
    table(['code', 'what', 'level'], checks),
  );
}

interface Member {
  readonly description: string;
  readonly [keyword: string]: unknown;
}

/** The members of a project file, each by its schema. */
function project(): Readonly<Record<string, Member>> {
  const { properties } = manifest.contributes.configuration as { readonly properties: Readonly<Record<string, Setting>> };
  const said = (name: string) =>
    properties[`passagework.${name}`]?.description ?? properties[`passagework.${name}`]?.markdownDescription ?? '';
  return {
    $schema: { description: 'Where the schema of this file is, for editors that ask.', type: 'string' },
    instrument: { description: said('instrument'), type: 'string', examples: ['violin', 'violin 3/4', 'viola', 'cello'] },
    hand: { description: said('hand'), type: 'string', examples: ['small', 'medium', 'large', '1-2 48, 1-3 72, 1-4 98'] },
    safeChance: { description: said('safeChance'), type: 'number', exclusiveMinimum: 0, exclusiveMaximum: 1 },
    rules: {
      description: said('rules'),
      type: 'object',
      properties: Object.fromEntries(CODES.map((each) => [each, { description: `${readPage(each).title}.`, enum: LEVELS }])),
      additionalProperties: false,
    },
    exclude: {
      description:
        'Files that are not checked unless they are named or open, in the patterns of a `.gitignore`, counted from this file.',
      type: 'array',
      items: { type: 'string' },
      examples: [['drafts/']],
    },
    baseline: {
      description:
        'Path, counted from this file, of the findings that `check` leaves out, as `check --write-baseline` has recorded them.',
      type: 'string',
      minLength: 1,
    },
  };
}

function projectSchema(): string {
  const schema = {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'What a collection of passages agrees on',
    type: 'object',
    properties: project(),
    additionalProperties: false,
  };
  return `${JSON.stringify(schema, null, 2)}\n`;
}
