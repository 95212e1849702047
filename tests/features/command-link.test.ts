import { expect, it } from 'vitest';
import { commandLink } from '../../server/features/command-link';

it('a link to a command holds no parenthesis, which would end it in Markdown, and its arguments come back whole', () => {
  const given = [{ uri: 'file:///études (draft).passage', title: 'a ) b ( c' }];
  const link = commandLink('passagework.pin', given);
  expect(link).toMatch(/^command:passagework\.pin\?[^()\s]+$/);
  expect(JSON.parse(decodeURIComponent(link.slice(link.indexOf('?') + 1)))).toEqual(given);
});
