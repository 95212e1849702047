import { describe, expect, it } from 'vitest';
import { folder, passagework, started } from './command';

describe('serve', () => {
  it('speaks to an editor over standard input and output', async () => {
    using place = folder({});
    const child = started(['serve', '--stdio'], place.path);
    const answer = new Promise<string>((resolve, reject) => {
      let out = '';
      child.stdout?.on('data', (chunk) => {
        out += chunk;
        if (out.includes('"capabilities"')) resolve(out);
      });
      child.once('exit', () => reject(new Error(`ended early: ${out}`)));
    });
    const message = JSON.stringify({
      jsonrpc: '2.0',
      id: 1,
      method: 'initialize',
      params: { processId: null, rootUri: null, capabilities: {} },
    });
    child.stdin?.write(`Content-Length: ${message.length}\r\n\r\n${message}`);
    expect(await answer).toContain('"hoverProvider"');
    child.kill();
  });

  it('asks how to speak when nothing says so', () => {
    const { code, err } = passagework(['serve']);
    expect(code).toBe(2);
    expect(err).toContain('serve --stdio');
  });
});
