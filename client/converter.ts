import { createMessageConnection, type MessageReader, type MessageWriter } from 'vscode-jsonrpc';
import type { Bundle } from '../server/l10n/translate';
import { type PlayerParams, READ_PLAYER_REQUEST, type ReadPlayerReply } from '../server/protocol/messages';

/** A freshly started converter (see `ExportFormat`) and how to end it. */
export interface RunningConverter {
  readonly transports: { readonly reader: MessageReader; readonly writer: MessageWriter };
  end(): void;
}

/** Asks a converter one thing. Each request has one of its own, so nothing of it stays in memory between two. */
export class Converter {
  constructor(
    private readonly start: () => Promise<RunningConverter>,
    private readonly readPlayer: (params: PlayerParams) => Promise<ReadPlayerReply>,
    /** The text of the project file that holds for a document. */
    private readonly readProject: (uri: string) => Promise<string | undefined> = async () => undefined,
    /** What it is to speak; English where there is none. */
    private readonly words?: Bundle | undefined,
  ) {}

  /**
   * @param answers what the converter may ask meanwhile, by method
   * @param cancelled ends the converter, and with it the request, which then fails
   */
  async request<P extends object, R>(
    method: string,
    params: P,
    answers: Readonly<Record<string, () => Promise<object>>> = {},
    cancelled?: (end: () => void) => void,
  ): Promise<R> {
    const project = 'uri' in params ? await this.readProject(String(params.uri)) : undefined;
    const { transports, end } = await this.start();
    const connection = createMessageConnection(transports.reader, transports.writer);
    // Without this a converter that can't start would leave its caller waiting for ever.
    const gone = new Promise<never>((_, fail) => {
      const ended = () => fail(new Error('the converter ended before it had answered'));
      connection.onClose(ended);
      // A web worker that is ended closes nothing.
      cancelled?.(() => {
        end();
        ended();
      });
    });
    connection.onRequest(READ_PLAYER_REQUEST, (params: PlayerParams) => this.readPlayer(params));
    for (const [asked, answer] of Object.entries(answers)) connection.onRequest(asked, answer);
    connection.listen();
    try {
      return await Promise.race([
        connection.sendRequest<R>(method, {
          ...params,
          ...(project !== undefined && { project }),
          ...(this.words && { words: this.words }),
        }),
        gone,
      ]);
    } finally {
      connection.dispose();
      end();
    }
  }
}
