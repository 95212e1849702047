import { describe, expect, it } from 'vitest';
import { newNonce, page } from '../../client/preview/page';

const parts = {
  nonce: 'abc123',
  source: 'https://panel.example',
  script: 'https://panel.example/dist/webview.js',
  language: 'en',
};

/** The policy by directive, as the Content Security Policy standard (W3C CSP Level 3) writes it. */
function policy(html: string): Map<string, string> {
  const content = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '';
  return new Map(
    content.split(';').map((directive) => {
      const [name = '', ...values] = directive.trim().split(/\s+/);
      return [name, values.join(' ')];
    }),
  );
}

describe('the preview’s page', () => {
  it('lets nothing in that it does not name: no network, no inline script, no eval', () => {
    const told = policy(page(parts));
    expect(told.get('default-src')).toBe("'none'");
    expect(told.get('script-src')).toBe("'nonce-abc123'");
    expect(told.get('style-src')).toBe("'nonce-abc123'");
    expect(told.has('connect-src')).toBe(false);
    expect([...told.values()].join(' ')).not.toMatch(/unsafe|\*/);
  });

  it('runs one script, under its nonce', () => {
    const scripts = [...page(parts).matchAll(/<script([^>]*)>([\s\S]*?)<\/script>/g)];
    expect(scripts).toHaveLength(1);
    expect(scripts[0]?.[1]).toContain('nonce="abc123"');
    expect(scripts[0]?.[2]).toBe('');
  });

  it('hands the words on as data that nothing runs, whatever stands in them', () => {
    const words = { Play: '</script><script>alert(1)</script>', '<b>': '\u2028' };
    const scripts = [...page({ ...parts, words }).matchAll(/<script([^>]*)>([\s\S]*?)<\/script>/g)];
    expect(scripts).toHaveLength(2);
    expect(scripts[0]?.[1]).toBe(' type="application/json" id="words"');
    expect(JSON.parse(scripts[0]?.[2] ?? '')).toEqual(words);
    expect(scripts[1]?.[1]).toContain('nonce="abc123"');
  });

  it('keeps addresses inside their attributes', () => {
    const html = page({ ...parts, script: 'x" onerror="y', language: '"><b>' });
    expect(html).not.toContain('onerror="y');
    expect(html).not.toContain('<b>');
  });

  it('takes a new nonce of 128 bits each time', () => {
    const nonces = new Set(Array.from({ length: 50 }, newNonce));
    expect(nonces.size).toBe(50);
    for (const nonce of nonces) expect(nonce).toMatch(/^[0-9a-f]{32}$/);
  });
});
