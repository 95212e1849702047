import type { ISerializedGast, TokenType } from 'chevrotain';
import { MusicParser } from '../../grammar/parser';
import { TOKENS, WORD_END } from '../../grammar/tokens';
import { ValueParser } from '../../grammar/values/value-parser';
import { VALUE_TOKENS } from '../../grammar/values/value-tokens';

/** The rules of both parsers as they run, in the notation of XML 1.0 (section 6), and what each of their words is. */
export function grammarReference(): string {
  return `${[
    '# The grammar',
    'How music and values are written, in the notation of XML 1.0 (section 6), made from the parsers themselves: `?` may be left out, `*` is any\nnumber, `+` one or more, `|` one of several. Names with a capital are words, told as regular expressions below, each to the word’s end. The rules `stray` and\n`looseHints`, and the words in `Loose`, take what does not belong there, so that the rest of the line is read.',
    '## Music',
    rules(new MusicParser().getSerializedGastProductions()),
    words(TOKENS),
    '## Values',
    'What stands behind the colon of a setting, in a line of a player file, and in a comment that begins with `check`.',
    rules(new ValueParser().getSerializedGastProductions()),
    words(VALUE_TOKENS),
  ].join('\n\n')}\n`;
}

function rules(productions: readonly ISerializedGast[]): string {
  const lines = productions.map(
    (rule) => `${(rule as unknown as Part).name} ::= ${sequence((rule as unknown as Part).definition)}`,
  );
  return ['```ebnf', ...lines, '```'].join('\n');
}

/** Chevrotain's own types leave out what the kinds differ in. */
interface Part {
  readonly type: string;
  readonly name: string;
  readonly definition: readonly Part[];
  readonly separator?: Part;
}

function sequence(parts: readonly Part[]): string {
  return parts.map(written).filter(Boolean).join(' ');
}

function written(part: Part): string {
  const inside = () => sequence(part.definition);
  switch (part.type) {
    case 'Terminal':
    case 'NonTerminal':
      return part.name;
    case 'Alternation':
      return `(${part.definition.map(written).join(' | ')})`;
    case 'Option':
      return `${grouped(inside())}?`;
    case 'Repetition':
      return `${grouped(inside())}*`;
    case 'RepetitionMandatory':
      return `${grouped(inside())}+`;
    case 'RepetitionMandatoryWithSeparator':
      return `${inside()} (${part.separator?.name} ${inside()})*`;
    case 'RepetitionWithSeparator':
      return `(${inside()} (${part.separator?.name} ${inside()})*)?`;
    case 'Alternative':
      return inside();
    default:
      throw new Error(`There is no notation for ${part.type}.`);
  }
}

function grouped(text: string): string {
  return /^\w+$|^\([^()]*\)$/.test(text) ? text : `(${text})`;
}

/** How a pattern says that a word ends there, in music and in values. */
const ENDS = [WORD_END, '(?![^\\s,=/%"])'];

/** A kind of words is the words in it. */
function words(types: readonly TokenType[]): string {
  const kinds = types.map((type) => {
    const members = types.filter(({ CATEGORIES = [] }) => CATEGORIES.includes(type)).map(({ name }) => name);
    const pattern = type.PATTERN instanceof RegExp && type.PATTERN.source !== 'NOT_APPLICABLE' ? [type.PATTERN.source] : [];
    return `${type.name} ::= ${[...pattern.map((source) => `/${ENDS.reduce((rest, end) => rest.replaceAll(end, ''), source)}/`), ...members].join(' | ')}`;
  });
  return ['```ebnf', ...kinds, '```'].join('\n');
}
