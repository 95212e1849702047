import { describe, expect, it, vi } from 'vitest';
import { heldScene } from '../../client/webview/held-scene';
import { sceneChange } from '../../server/scene/change';
import { sceneOf } from '../scene/solved';

const FIRST = sceneOf('1/4 D5 E5 F#5 G5 |\n');
const NEXT = { ...sceneOf('1/4 D5 E5 A5 G5 |\n'), version: 2 };

describe('the scene that the panel holds', () => {
  it('becomes the next by a change, again and again', () => {
    const ask = vi.fn();
    const whole = heldScene(ask);
    expect(whole({ type: 'scene', scene: FIRST })).toEqual({ type: 'scene', scene: FIRST });
    const at = { passage: 0, event: 2 };
    const there = sceneChange(FIRST, NEXT)!;
    expect(whole({ type: 'change', uri: FIRST.uri, change: there, at })).toEqual({ type: 'scene', scene: NEXT, at });
    const back = sceneChange(NEXT, { ...FIRST, version: 3 })!;
    expect(whole({ type: 'change', uri: FIRST.uri, change: back })).toEqual({ type: 'scene', scene: { ...FIRST, version: 3 } });
    expect(ask).not.toHaveBeenCalled();
  });

  it('is asked for whole where a change was made for another: before the first, of another file, of another version', () => {
    const ask = vi.fn();
    const whole = heldScene(ask);
    const change = sceneChange(FIRST, NEXT)!;
    expect(whole({ type: 'change', uri: FIRST.uri, change })).toBeUndefined();
    whole({ type: 'scene', scene: NEXT });
    expect(whole({ type: 'change', uri: FIRST.uri, change })).toBeUndefined();
    whole({ type: 'scene', scene: FIRST });
    expect(whole({ type: 'change', uri: 'file:///other.passage', change })).toBeUndefined();
    expect(ask).toHaveBeenCalledTimes(3);
  });
});
