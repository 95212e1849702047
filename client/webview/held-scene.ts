import type { Scene } from '../../server/protocol/scene';
import { withChange } from '../../server/scene/change';
import type { HostMessage, WholeMessage } from './messages';

/** Holds the last scene, so that a change of it comes to the panel as the next whole scene; `ask` is called where it was not made for this one. */
export function heldScene(ask: () => void): (message: HostMessage) => WholeMessage | undefined {
  let held: Scene | undefined;
  return (message) => {
    if (message.type !== 'change') {
      if (message.type === 'scene') held = message.scene;
      return message;
    }
    const { uri, change, at } = message;
    const scene = held?.uri === uri ? withChange(held, change) : undefined;
    if (!scene) {
      ask();
      return undefined;
    }
    held = scene;
    return { type: 'scene', scene, ...(at && { at }) };
  };
}
