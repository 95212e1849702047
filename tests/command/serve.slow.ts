import { createServer, type Socket } from 'node:net';
import { join } from 'node:path';
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

  it.each(['socket', 'pipe'])('speaks to an editor that listens on a %s, and ends at a message that is none', async (kind) => {
    using place = folder({});
    const listener = createServer();
    const pipe = join(place.path, 'editor.sock');
    await new Promise<void>((ready) => (kind === 'pipe' ? listener.listen(pipe, ready) : listener.listen(0, '127.0.0.1', ready)));
    const address = listener.address();
    const called = new Promise<Socket>((resolve) => listener.once('connection', resolve));
    const where = typeof address === 'object' && address ? String(address.port) : pipe;
    const child = started(['serve', `--${kind}`, where], place.path);
    const ended = new Promise((resolve) => child.once('exit', resolve));
    const socket = await called;
    const answer = new Promise<string>((resolve) => {
      let out = '';
      socket.on('data', (chunk) => {
        out += chunk;
        if (out.includes('"capabilities"')) resolve(out);
      });
    });
    const message = JSON.stringify({
      jsonrpc: '2.0',
      id: 1,
      method: 'initialize',
      params: { processId: null, capabilities: {} },
    });
    socket.write(`Content-Length: ${message.length}\r\n\r\n${message}`);
    expect(await answer).toContain('"hoverProvider"');
    socket.write('Content-Length: -1\r\n\r\n{}');
    expect(await ended).toBe(1);
    socket.destroy();
    listener.close();
  });

  it('says when nobody listens', async () => {
    using place = folder({});
    const child = started(['serve', '--pipe', join(place.path, 'nobody.sock')], place.path);
    let said = '';
    child.stderr?.on('data', (chunk) => {
      said += chunk;
    });
    expect(await new Promise((resolve) => child.once('exit', resolve))).toBe(1);
    expect(said).toContain("The editor can't be reached at");
  });

  it('asks how to speak when nothing says so', () => {
    const { code, err } = passagework(['serve']);
    expect(code).toBe(2);
    expect(err).toContain('serve --stdio');
  });
});
