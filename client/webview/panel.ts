import type { Scene, SceneAlternative, SceneEvent, ScenePassage } from '../../server/protocol/scene';
import { percent } from '../../server/scene/words';
import { BoardView } from './board-view';
import { DetailsView } from './details-view';
import { button, element } from './element';
import { actionOf, KEYS, type KeyAction } from './keys';
import type { ExportFormat, HostMessage, NoteAddress, PanelMessage, ViewName } from './messages';
import { NoteSync } from './note-sync';
import { Player } from './player';
import { saved } from './save-picture';
import { StaffView } from './staff-view';
import { SLOWEST, SPEED_STEP, type TransportSettings, TransportView } from './transport-view';

/** What outlives a reload of the panel. */
export interface Remembered {
  readonly uri?: string;
  readonly settings?: Partial<TransportSettings>;
}

export interface Host {
  send(message: PanelMessage): void;
  remember(state: Remembered): void;
}

/** Three views of one scene: fingerboard, staff, sound. Owns what is selected; draws nothing itself. */
export class Panel {
  private readonly sync = new NoteSync();
  private readonly player = new Player();
  private readonly settings: TransportSettings;
  private scene: Scene | undefined;
  /** The other end of a selection of several notes. */
  private anchor: number | undefined;
  private playing: number | undefined;
  private other: SceneAlternative | undefined;

  private readonly title = element('h1');
  private readonly picker = element('select', { 'aria-label': 'Passage' });
  private readonly facts = element('span', { class: 'facts' });
  private readonly working = element('p', { class: 'working', role: 'status' });
  private readonly caution = element('p', { class: 'caution', hidden: true });
  private readonly message = element('p', { class: 'message', role: 'status' });
  private readonly body = element('div', { class: 'body' });
  private readonly views = element('div', { hidden: true });
  private readonly staff = new StaffView((event, { extend, twice }) => this.choose(event, { extend, focus: twice }));
  private readonly board = new BoardView();
  private readonly details = new DetailsView({ compare: (other) => this.compare(other), choose: (other) => this.pin(other) });
  private readonly transport: TransportView;

  constructor(
    root: HTMLElement,
    private readonly host: Host,
    remembered: Remembered,
  ) {
    this.settings = { speed: 1, loop: false, click: false, countIn: false, wholeString: false, ...remembered.settings };
    this.transport = new TransportView(this.settings, {
      toggle: () => this.toggle(),
      step: (by) => this.step(by, false),
      changed: () => this.settingsChanged(),
    });
    this.picker.addEventListener('change', () => this.open({ passage: Number(this.picker.value), event: 0 }));
    const words = element('div', { class: 'words' }, this.details.account, this.details.choices);
    this.body.append(this.board.root, words);
    this.views.append(
      element('header', { class: 'head' }, this.title, this.picker, this.facts),
      this.transport.root,
      this.caution,
      this.staff.root,
      this.body,
      this.details.legend,
      this.details.all,
      element(
        'details',
        {},
        element('summary', {}, 'Keys'),
        element(
          'dl',
          { class: 'keys' },
          ...KEYS.flatMap(([keys, does]) => [element('dt', {}, element('kbd', {}, keys)), element('dd', {}, does)]),
        ),
      ),
      element(
        'details',
        {},
        element('summary', {}, 'Save a picture'),
        element('div', { class: 'transport' }, ...this.saveButtons()),
      ),
    );
    root.append(element('main', { class: 'panel' }, this.working, this.message, this.views));
    for (const view of [this.staff.root, this.board.root]) view.addEventListener('keydown', (key) => this.onKey(key));
    new ResizeObserver(() => this.draw()).observe(this.body);
  }

  receive(message: HostMessage): void {
    switch (message.type) {
      case 'scene':
        this.show(message.scene, message.at);
        break;
      case 'cursor':
        this.follow(message);
        break;
      case 'working':
        this.showWorking(message.text, message.share);
        break;
      case 'failed':
        this.player.stop();
        this.showMessage(message.message);
        break;
      case 'export':
        void this.save(message.view, message.format);
    }
  }

  private get passage(): ScenePassage | undefined {
    return this.sync.at && this.scene?.passages[this.sync.at.passage];
  }

  private get event(): SceneEvent | undefined {
    return this.sync.at && this.passage?.events[this.sync.at.event];
  }

  private show(scene: Scene, at: NoteAddress | undefined): void {
    // What is heard must be what is seen.
    this.player.stop();
    this.scene = scene;
    this.anchor = undefined;
    this.other = undefined;
    this.showWorking(undefined);
    this.host.remember({ uri: scene.uri, settings: this.settings });
    if (!this.sync.show(scene, at)) {
      this.showMessage('Nothing to play yet. Write some pitches in the text, for instance D6o F#6o A6o.');
      return;
    }
    this.message.hidden = true;
    this.views.hidden = false;
    this.draw();
  }

  private follow(cursor: Extract<HostMessage, { type: 'cursor' }>): void {
    const before = this.sync.at?.passage;
    if (!this.sync.follow(cursor)) return;
    this.anchor = undefined;
    this.other = undefined;
    if (before === cursor.at.passage) this.refresh();
    else this.draw();
  }

  private showWorking(text: string | undefined, share?: number): void {
    this.working.replaceChildren(
      text ?? '',
      share === undefined ? '' : element('progress', { max: 1, value: share, 'aria-label': text ?? 'Working' }),
    );
  }

  private showMessage(text: string): void {
    this.showWorking(undefined);
    this.message.textContent = text;
    this.message.hidden = false;
    this.views.hidden = true;
  }

  /** Everything, after a new scene, passage or size. */
  private draw(): void {
    const { passage, scene } = this;
    if (!passage || !scene) return;
    const several = scene.passages.length > 1;
    this.title.textContent = passage.title || 'Passage';
    this.title.hidden = several;
    this.picker.hidden = !several;
    this.picker.replaceChildren(
      ...scene.passages.map(({ title, events }, index) =>
        element(
          'option',
          { value: index, selected: index === this.sync.at?.passage, disabled: events.length === 0 },
          title || `Passage ${index + 1}`,
        ),
      ),
    );
    this.facts.textContent = `${passage.board.name} · ${passage.hand} hand · every note good ${percent(passage.clean)}`;
    this.caution.textContent = passage.caution ?? '';
    this.caution.hidden = passage.caution === undefined;
    this.staff.show(passage, this.staff.root.clientWidth);
    this.refresh();
  }

  /** What changes from note to note. */
  private refresh(): void {
    const { passage, event } = this;
    if (!passage || !event) return;
    const shown = this.playing === undefined ? event : (passage.events[this.playing] ?? event);
    this.staff.mark({ selected: event.index, range: this.range(), playing: this.playing });
    const width = this.views.clientWidth;
    this.board.show({ passage, event: shown.index, other: this.other, wholeString: this.settings.wholeString }, width);
    this.body.classList.toggle('narrow', this.board.root.classList.contains('upright'));
    this.details.show(passage, shown);
    const range = this.range();
    this.transport.showRange(range ? `notes ${range[0] + 1} to ${range[1] + 1}` : '');
  }

  private range(): readonly [number, number] | undefined {
    const event = this.sync.at?.event;
    if (this.anchor === undefined || event === undefined || this.anchor === event) return undefined;
    return [Math.min(this.anchor, event), Math.max(this.anchor, event)];
  }

  /** A person chose a note of the passage shown. */
  private choose(event: number, { extend = false, focus = false }): void {
    const at = this.sync.at;
    if (!at) return;
    const anchor = extend ? (this.anchor ?? at.event) : undefined;
    const message = this.sync.choose({ passage: at.passage, event }, focus);
    if (!message) return;
    this.anchor = anchor;
    this.other = undefined;
    this.host.send(message);
    this.refresh();
  }

  /** A person chose another passage. */
  private open(at: NoteAddress): void {
    this.player.stop();
    this.anchor = undefined;
    const message = this.sync.choose(at);
    if (message) this.host.send(message);
    this.draw();
  }

  private step(by: number, extend: boolean): void {
    const last = (this.passage?.events.length ?? 0) - 1;
    const from = this.playing ?? this.sync.at?.event ?? 0;
    this.choose(Math.max(0, Math.min(last, from + by)), { extend });
  }

  private compare(other: SceneAlternative | undefined): void {
    if (this.playing !== undefined) return;
    this.other = other;
    const { passage, event } = this;
    if (passage && event)
      this.board.show({ passage, event: event.index, other, wholeString: this.settings.wholeString }, this.views.clientWidth);
  }

  private pin(other: SceneAlternative): void {
    const at = this.sync.at;
    if (!this.scene || !at || this.playing !== undefined) return;
    this.host.send({ type: 'pin', uri: this.scene.uri, version: this.scene.version, at, alternative: other.index });
  }

  private toggle(): void {
    const { passage } = this;
    const at = this.sync.at?.event ?? 0;
    if (this.player.playing) {
      this.player.stop();
      return;
    }
    if (!passage) return;
    const range = this.range();
    const [from, to] = range ?? [this.settings.loop ? 0 : at, passage.events.length - 1];
    const { loop, speed, click, countIn } = this.settings;
    this.transport.showPlaying(true);
    this.details.speak(false);
    void this.player
      .play(
        passage,
        { from, to, start: range ? from : at, loop, speed, click, countIn },
        { reach: (event) => this.reached(event), end: () => this.ended() },
      )
      .catch((error: unknown) => {
        this.ended();
        this.showWorking(`No sound can be played here: ${error instanceof Error ? error.message : String(error)}`);
      });
  }

  private reached(event: number): void {
    this.playing = event;
    this.other = undefined;
    this.refresh();
  }

  /** Playing stops where it is: the next start goes on from there, unless it repeats a choice of notes. */
  private ended(): void {
    const { playing, passage } = this;
    this.playing = undefined;
    this.transport.showPlaying(false);
    this.details.speak(true);
    const over = passage !== undefined && playing === passage.events.length - 1;
    if (playing !== undefined && !over && !this.range() && this.sync.at) this.choose(playing, {});
    else this.refresh();
  }

  private settingsChanged(): void {
    this.host.remember({ ...(this.scene && { uri: this.scene.uri }), settings: this.settings });
    if (this.player.playing) {
      // A change while playing is heard at once, from the note that is sounding.
      this.player.stop();
      this.toggle();
    } else this.refresh();
  }

  private onKey(key: KeyboardEvent): void {
    const action = actionOf(key);
    if (!action) return;
    key.preventDefault();
    this.act(action);
  }

  private act(action: KeyAction): void {
    const last = (this.passage?.events.length ?? 1) - 1;
    const { speed } = this.settings;
    switch (action.kind) {
      case 'step':
        this.step(action.by, action.extend);
        break;
      case 'edge':
        this.choose(action.to === 'first' ? 0 : last, { extend: action.extend });
        break;
      case 'play':
        this.toggle();
        break;
      case 'text':
        this.choose(this.sync.at?.event ?? 0, { focus: true });
        break;
      case 'slower':
        this.transport.set('speed', Math.max(SLOWEST, speed - SPEED_STEP));
        break;
      case 'faster':
        this.transport.set('speed', Math.min(1, speed + SPEED_STEP));
        break;
      case 'choices':
        this.details.choices.querySelector<HTMLElement>('button, summary')?.focus();
        break;
      default:
        this.transport.set(action.kind, !this.settings[action.kind]);
        break;
    }
  }

  private saveButtons(): HTMLButtonElement[] {
    const of = (label: string, view: ViewName, format: ExportFormat) => button(label, {}, () => void this.save(view, format));
    return [
      of('Fingerboard as SVG', 'board', 'svg'),
      of('Fingerboard as PNG', 'board', 'png'),
      of('Staff as SVG', 'staff', 'svg'),
      of('Staff as PNG', 'staff', 'png'),
    ];
  }

  private async save(view: ViewName, format: ExportFormat): Promise<void> {
    const drawing = view === 'board' ? this.board.picture() : this.staff.picture();
    if (!drawing) return;
    try {
      this.host.send(await saved(view, format, this.passage?.title ?? '', drawing));
    } catch (error) {
      this.showWorking(`The picture could not be made: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
}
