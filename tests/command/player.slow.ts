import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folder, passagework, started } from './command';

/** Two touch points on III within reach; which is chosen is for the player's attempts to say. */
const PASSAGE = 'player: ines.player\n1/4 F#6o [natural]\n';
const INES = 'name: Ines\nhand: medium\nIII 2/5: 0 of 10\nIII 1/5: 30 of 30\n';

const ways = (out: string) =>
  (
    JSON.parse(out) as { passages: { events: { notes: { string: string; touch?: { fraction: string } }[] }[] }[] }
  ).passages[0]!.events.map(({ notes }) => `${notes[0]!.string} ${notes[0]!.touch?.fraction}`);

describe('players of the command', () => {
  it('a passage finds its player beside itself, wherever the command runs', () => {
    using files = folder({ 'scores/a.passage': PASSAGE, 'scores/ines.player': INES });
    const { code, out } = passagework(['solve', 'scores/a.passage', '--format', 'json'], { cwd: files.path });
    expect(code).toBe(0);
    expect(ways(out)).toContain('III 1/5');
    const without = passagework(['solve', '-', '--format', 'json'], {
      input: PASSAGE.replace(/^player.*\n/, ''),
      cwd: files.path,
    });
    expect(ways(without.out)).toContain('III 2/5');
  });

  it('--player plays instead of whom the file names', () => {
    using files = folder({ 'a.passage': PASSAGE, 'ines.player': 'III 1/5: 0 of 10\n', 'mattis.player': INES });
    const own = passagework(['solve', 'a.passage', '--format', 'json'], { cwd: files.path });
    const other = passagework(['solve', 'a.passage', '--player', 'mattis.player', '--format', 'json'], { cwd: files.path });
    expect(ways(own.out)).not.toContain('III 1/5');
    expect(ways(other.out)).toContain('III 1/5');
    const none = passagework(['check', 'a.passage', '--player', 'nobody.player'], { cwd: files.path });
    expect(none.code).toBe(2);
    expect(none.err).toContain("nobody.player can't be used: there is no such file");
  });

  it('--players sets them side by side, by name', () => {
    using files = folder({
      'a.passage': '1/4 A3<>D4\n',
      'ines.player': 'name: Ines\n',
      'kit.player': 'name: Kit\nhand: 1-4 60\n',
    });
    const table = passagework(['check', 'a.passage', '--players', 'ines.player,kit.player'], { cwd: files.path });
    expect(table.code).toBe(0);
    expect(table.out).toMatch(/^passage\s+Ines\s+Kit\n/);
    expect(table.out).toMatch(/no: bar 1\n/);
    expect(table.out).toContain('Pain means stop');
    const json = JSON.parse(
      passagework(['check', 'a.passage', '--players', 'ines.player,kit.player', '--format', 'json'], { cwd: files.path }).out,
    ) as {
      players: string[];
      passages: { verdicts: { stuckInBar?: number }[] }[];
    };
    expect(json.players).toEqual(['ines.player', 'kit.player']);
    expect(json.passages[0]!.verdicts.map(({ stuckInBar }) => stuckInBar)).toEqual([undefined, 1]);
  });

  it('check looks at player files too, and leaves their text alone', () => {
    using files = folder({ 'a.passage': PASSAGE, 'ines.player': 'nmae: Ines\nhand: medium\n' });
    const { code, out } = passagework(['check', '.'], { cwd: files.path });
    expect(code).toBe(1);
    expect(out).toContain('ines.player:1:1 error player-key');
    expect(out).toContain('a.passage:1:9 warning player-file');
    expect(readFileSync(join(files.path, 'ines.player'), 'utf8')).toBe('nmae: Ines\nhand: medium\n');
  });

  it('--watch checks a passage again when the file of its player changes', { timeout: 40_000 }, async () => {
    using files = folder({ 'a.passage': PASSAGE, 'ines.player': INES });
    const child = started(['check', '--watch', 'a.passage'], files.path);
    let out = '';
    child.stdout?.on('data', (chunk) => {
      out += chunk;
    });
    const told = async (words: string) => {
      for (let i = 0; i < 800 && !out.includes(words); i++) await new Promise((wake) => setTimeout(wake, 20));
      expect(out).toContain(words);
    };
    let save: NodeJS.Timeout | undefined;
    try {
      await told('Nothing to report in 1 file');
      // The watcher learns of a file a moment after it says so: a save that came too early is made again.
      save = setInterval(() => writeFileSync(join(files.path, 'ines.player'), `${INES}nonsense ${Math.random()}\n`), 1000);
      await told('a.passage:1:9 warning player-file');
    } finally {
      clearInterval(save);
      const ended = new Promise((end) => child.once('exit', end));
      child.kill('SIGINT');
      expect(await ended).toBe(0);
    }
  });

  it('reads no file outside the passage’s folder', () => {
    using files = folder({ 'scores/a.passage': 'player: ../ines.player\nD5\n', 'ines.player': INES });
    const { code, out } = passagework(['check', 'scores/a.passage'], { cwd: files.path });
    expect(code).toBe(1);
    expect(out).toContain('player-file');
    expect(out).toContain('leads out');
  });
});
