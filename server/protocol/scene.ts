/**
 * One document as the preview shows it: plain data, no functions, safe to send as JSON. Built by
 * `server/scene` from passage and solution; drawn by the webview, the HTML page and the sheet.
 */
import type { Place } from './messages';

export interface Scene {
  readonly uri: string;
  readonly version: number;
  readonly passages: readonly ScenePassage[];
}

export interface ScenePassage {
  readonly title: string;
  readonly board: SceneBoard;
  readonly events: readonly SceneEvent[];
  readonly bars: readonly {
    readonly number: number;
    readonly firstEvent: number;
    readonly endEvent: number;
    readonly close: string;
    readonly meter?: string;
  }[];
  readonly instructions: readonly { readonly bar: number; readonly text: string }[];
  readonly hand: string;
  /** 0 to 1. */
  readonly clean: number;
  readonly cost: number;
  readonly hardest: number;
}

/** The instrument to scale, mm from the nut. */
export interface SceneBoard {
  readonly name: string;
  readonly length: number;
  readonly fingerboard: number;
  readonly spacing: { readonly nut: number; readonly bridge: number };
  /** I first. */
  readonly strings: readonly { readonly name: string; readonly pitch: string; readonly hz: number }[];
}

export interface SceneEvent {
  readonly index: number;
  readonly range: { readonly start: Place; readonly end: Place };
  readonly bar: number;
  readonly beat: string;
  /** Fraction of a whole note, `1/8`. */
  readonly duration: string;
  /** Seconds from the start of the passage, seconds of sound. */
  readonly onset: number;
  readonly seconds: number;
  readonly tempo: { readonly beat: string; readonly bpm: number };
  readonly dynamic: string;
  readonly slurred: boolean;
  readonly slide: boolean;
  readonly bow?: 'up' | 'down';
  /** Empty where the event can't be played; `problem` then says why. */
  readonly notes: readonly SceneNote[];
  /** As written by the editor, for an event that can't be played and for the text account. */
  readonly written: string;
  readonly problem?: string;
  readonly position?: number;
  readonly handMm?: number;
  readonly chance?: number;
  /** One sentence a screen reader can say. */
  readonly account: string;
  readonly alternatives: readonly SceneAlternative[];
}

export interface SceneNote {
  readonly string: string;
  readonly kind: 'open' | 'stopped' | 'natural' | 'artificial';
  readonly partial: number;
  readonly sounding: string;
  readonly hz: number;
  readonly cents: number;
  readonly interval?: string;
  readonly stop?: SceneFinger;
  readonly touch?: SceneFinger & { readonly fraction: string };
  /** mm either side of the deciding finger. */
  readonly tolerance?: number;
  readonly held: boolean;
}

export interface SceneFinger {
  readonly pitch: string;
  readonly finger: string;
  readonly mm: number;
}

export interface SceneAlternative {
  readonly index: number;
  /** «II natural 1/3, finger 2». */
  readonly label: string;
  readonly extraCost: number;
  readonly notes: readonly SceneNote[];
  readonly position: number;
  readonly handMm: number;
}
