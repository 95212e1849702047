import type { MessageConnection } from 'vscode-jsonrpc';
import type { ClientCapabilities } from 'vscode-languageserver-protocol';
import type { Settings } from '../protocol/settings';
import { misreadSettings, readSettings, SECTION } from '../workspace/settings';
import { MESSAGE } from './codes';

/** A client that has not answered by then never will, ms; its documents must not wait for it. */
const PATIENCE = 5000;

/** Where a document's settings come from: asked for each document where the client can (folders may differ), else told once for all. */
export interface Configuration {
  settingsFor(uri: string): Promise<Settings>;
  /** The client says that settings have changed and, if it is of the older kind, to what. */
  told(settings: unknown): void;
  /** Called once the client is ready, to be told of changes. */
  subscribe(): void;
}

export function createConfiguration(connection: MessageConnection, abilities: ClientCapabilities): Configuration {
  const asks = abilities.workspace?.configuration === true;
  let shared = readSettings(undefined);
  const warned = new Set<string>();

  /** Tells the user once about each setting that can't be read. */
  function checked(settings: Settings, raw?: unknown): Settings {
    for (const message of misreadSettings(settings, raw)) {
      if (!warned.has(message)) void connection.sendNotification('window/showMessage', { type: MESSAGE.warning, message });
      warned.add(message);
    }
    return settings;
  }

  return {
    async settingsFor(uri) {
      if (!asks) return shared;
      try {
        const items = [{ scopeUri: uri, section: SECTION }];
        const asked = connection.sendRequest<unknown[]>('workspace/configuration', { items });
        const [given] = await Promise.race([asked, silence()]);
        return checked(readSettings(given), given);
      } catch (error) {
        const message = `No settings came for ${uri}; the defaults hold. ${String(error)}`;
        void connection.sendNotification('window/logMessage', { type: MESSAGE.warning, message });
        return shared;
      }
    },
    told(settings) {
      shared = checked(readSettings((settings as Record<string, unknown> | null | undefined)?.[SECTION]));
    },
    subscribe() {
      if (!abilities.workspace?.didChangeConfiguration?.dynamicRegistration) return;
      const method = 'workspace/didChangeConfiguration';
      const registrations = [{ id: method, method, registerOptions: { section: SECTION } }];
      connection.sendRequest('client/registerCapability', { registrations }).catch(() => undefined);
    },
  };
}

function silence(): Promise<never> {
  return new Promise((_, fail) => {
    setTimeout(() => fail(new Error('The editor did not answer.')), PATIENCE);
  });
}
