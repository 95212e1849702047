import {
  type ClientCapabilities,
  type Connection,
  DidChangeConfigurationNotification,
  MessageType,
  ShowMessageNotification,
} from 'vscode-languageserver';
import type { Settings } from '../protocol/settings';
import { misreadSettings, readSettings, SECTION } from '../workspace/settings';

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

export function createConfiguration(connection: Connection, abilities: ClientCapabilities): Configuration {
  const asks = abilities.workspace?.configuration === true;
  let shared = readSettings(undefined);
  const warned = new Set<string>();

  /** Tells the user once about each setting that can't be read. */
  function checked(settings: Settings, raw?: unknown): Settings {
    for (const message of misreadSettings(settings, raw)) {
      if (!warned.has(message))
        void connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Warning, message });
      warned.add(message);
    }
    return settings;
  }

  return {
    async settingsFor(uri) {
      if (!asks) return shared;
      try {
        const asked = connection.workspace.getConfiguration({ scopeUri: uri, section: SECTION });
        const given: unknown = await Promise.race([asked, silence()]);
        return checked(readSettings(given), given);
      } catch (error) {
        connection.console.warn(`No settings came for ${uri}; the defaults hold. ${String(error)}`);
        return shared;
      }
    },
    told(settings) {
      shared = checked(readSettings((settings as Record<string, unknown> | null | undefined)?.[SECTION]));
    },
    subscribe() {
      if (!abilities.workspace?.didChangeConfiguration?.dynamicRegistration) return;
      connection.client.register(DidChangeConfigurationNotification.type, { section: SECTION }).catch(() => undefined);
    },
  };
}

function silence(): Promise<never> {
  return new Promise((_, fail) => {
    setTimeout(() => fail(new Error('The editor did not answer.')), PATIENCE);
  });
}
