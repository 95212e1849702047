import {
  type CancellationToken,
  type Connection,
  DocumentDiagnosticRequest,
  ErrorCodes,
  type RequestHandler,
  RequestType,
  ResponseError,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  EDIT_PLAYER_REQUEST,
  type EditPlayerParams,
  type EditPlayerReply,
  MEASURE_REQUEST,
  type MeasureParams,
  type MeasureReply,
  PLAYER_LANGUAGE,
} from '../protocol/messages';
import { Cancelled, createPace, type Runtime } from '../workspace/pace';
import { playerReport } from './diagnostics';
import type { Guard } from './guard';
import { placesIn } from './places';
import { measured, playerAnswer, playerEdit } from './player-requests';
import type { DocumentRequest } from './request';
import { REQUESTS } from './requests';
import type { Session } from './session';

/** Answers whatever the client asks. */
export function answerRequests(connection: Connection, session: Session, runtime: Runtime, guard: Guard): void {
  const { documents, workspace, placesOf } = session;
  function on<P, R, E>(type: RequestType<P, R, E>, work: (params: P, token: CancellationToken) => R | Promise<R>): void {
    const answer = (params: P, token: CancellationToken) => guard.answer(type.method, token, () => work(params, token));
    connection.onRequest(type, answer as RequestHandler<P, R, E>);
  }

  async function reply(request: DocumentRequest, params: AboutDocument, token: CancellationToken): Promise<unknown> {
    const uri = uriOf(params);
    const document = documents.get(uri);
    if (document?.languageId === PLAYER_LANGUAGE) return playerAnswer(request.type.method, params, document, session);
    try {
      const known = await workspace[request.needs](uri);
      if (!known) return null;
      const places = placesOf(uri, known.version);
      if (!places) throw new Cancelled();
      const pace = createPace(runtime, () => !token.isCancellationRequested && placesOf(uri, known.version) !== undefined);
      return await request.answer(params, known, places, session, pace);
    } catch (error) {
      if (error instanceof Cancelled && request.patient && !token.isCancellationRequested) return reply(request, params, token);
      throw error;
    }
  }
  for (const request of REQUESTS) on(request.type, (params, token) => reply(request, params, token));

  on(DocumentDiagnosticRequest.type, ({ textDocument: { uri }, previousResultId }) => {
    const ask = session.answerDiagnostics;
    if (!ask)
      throw new ResponseError(
        ErrorCodes.InvalidRequest,
        'This client has not said that it asks for problems; they are sent to it.',
      );
    const document = documents.get(uri);
    return document?.languageId === PLAYER_LANGUAGE ? playerReport(document) : ask(uri, previousResultId);
  });
  on(new RequestType<MeasureParams, MeasureReply, void>(MEASURE_REQUEST), measured);
  on(new RequestType<EditPlayerParams, EditPlayerReply, void>(EDIT_PLAYER_REQUEST), (params) =>
    playerEdit(params, (text) => placesIn(TextDocument.create('', PLAYER_LANGUAGE, 0, text))),
  );
}

/** A question about a document: the protocol's name it within `textDocument`, ours by `uri` (see params.ts). */
type AboutDocument = { readonly uri: string } | { readonly textDocument: { readonly uri: string } };

function uriOf(params: AboutDocument): string {
  return 'textDocument' in params ? params.textDocument.uri : params.uri;
}
