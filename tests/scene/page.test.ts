import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { renderPage } from '../../server/scene/page/page';
import { sealed } from '../../server/scene/page/sealed';
import { lighthouse } from './lighthouse';

const passage = lighthouse();
const page = renderPage({ uri: 'file:///harbour.passage', version: 1, passages: [passage] });

describe('the page', () => {
  test('loads nothing: no address, no import, and a policy that would stop both', () => {
    const outside = page.replaceAll('http://www.w3.org/2000/svg', '');
    expect(outside).not.toMatch(/https?:|\/\/[a-z]|<link|<img|<iframe|@import|url\(|src=|href=/);
    expect(page).toContain("default-src 'none'");
  });

  test('is the same text every time, with nothing of the machine in it', () => {
    expect(renderPage({ uri: 'file:///other.passage', version: 9, passages: [passage] })).toBe(page);
    expect(page).not.toMatch(/file:|20\d\d-\d\d|undefined|NaN/);
  });

  test('shows every event on the board, on the staff and in the table, with its account', () => {
    for (const { index } of passage.events) {
      expect(page.split(`<g class="pw-layer" data-event="${index}"`)).toHaveLength(2);
      expect(page).toContain(`<g class="pw-event" data-event="${index}"`);
      expect(page).toContain(`<tr data-event="${index}" data-account=`);
    }
    expect(page.match(/<button[^>]*aria-label="Show note/g)).toHaveLength(passage.events.length);
  });

  test('says what is cautioned, and always that pain means stop', () => {
    expect(page).toContain('Pain means stop');
    expect(renderPage({ uri: '', version: 1, passages: [{ ...passage, caution: 'Mind the tide.' }] })).toContain(
      '<p class="caution">Mind the tide.</p>',
    );
  });

  test('takes no markup from a text', () => {
    const hostile = '</script><script>alert(1)</script><b x="';
    const text = renderPage({
      uri: '',
      version: 1,
      passages: [
        {
          ...passage,
          title: hostile,
          instructions: [{ bar: 1, text: hostile }],
          events: passage.events.map((event) => ({ ...event, account: hostile, problem: hostile })),
        },
      ],
    });
    expect(text).not.toContain('<script>alert');
    expect(text).not.toContain('<b x=');
    expect(text.match(/<script>/g)).toHaveLength(1);
  });

  test('several passages each have a heading, none is the page’s', () => {
    const two = renderPage({ uri: '', version: 1, passages: [passage, { ...passage, title: 'Harbour bells' }] });
    expect(two.match(/<h2>/g)).toHaveLength(2);
    expect(two).toContain('<h1>2 passages</h1>');
  });

  test('an empty scene is still a page', () => {
    expect(renderPage({ uri: '', version: 1, passages: [] })).toContain('</html>');
    expect(renderPage({ uri: '', version: 1, passages: [{ ...passage, events: [], bars: [], hardest: -1 }] })).toContain(
      'Nothing to play yet.',
    );
  });
});

test('a sealed page names its own script and style, and allows no others', async () => {
  const text = await sealed(page);
  const policy = /content="(default-src[^"]*)"/.exec(text)?.[1] ?? '';
  expect(policy).not.toContain('unsafe');
  for (const tag of ['style', 'script']) {
    const inside = new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`).exec(text)?.[1] ?? '';
    const hash = createHash('sha256').update(inside).digest('base64');
    expect(policy).toContain(`${tag}-src 'sha256-${hash}'`);
  }
  expect(text.replace(policy, '')).toBe(page.replace(/default-src[^"]*/, ''));
  expect(text).not.toMatch(/ style="| on[a-z]+="/);
});
