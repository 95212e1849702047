import { t } from '../../server/l10n/translate';
import type { Scene, SceneAlternative, SceneEvent, ScenePassage } from '../../server/protocol/scene';
import { BoardView } from './board-view';
import { DetailsView } from './details-view';
import { element } from './element';
import { HeadView } from './head-view';
import { HeardView } from './heard-view';
import { keysHelp, pictureButtons } from './help-view';
import type { Host, Remembered } from './host';
import { actionOf, belongsTo, type KeyAction } from './keys';
import type { ExportFormat, NoteAddress, ViewName, WholeMessage } from './messages';
import { NoteSync } from './note-sync';
import { Notice } from './notice';
import { OtherWays } from './other-ways';
import { PathView } from './path-view';
import { Playback } from './playback';
import { saved } from './save-picture';
import { StaffView } from './staff-view';
import { type TransportSettings, TransportView } from './transport-view';

/** Three views of one scene: fingerboard, staff, sound. Owns what is selected; draws nothing itself. */
export class Panel {
  private readonly sync = new NoteSync();
  private readonly others = new OtherWays((message) => this.host.send(message));
  private readonly settings: TransportSettings;
  private scene: Scene | undefined;
  private other: SceneAlternative | undefined;

  private readonly head = new HeadView({
    open: (passage) => this.open({ passage, event: 0 }),
    goToHardest: () => this.choose(this.passage?.hardest ?? 0, {}),
  });
  private readonly notice = new Notice();
  private readonly body = element('div', { class: 'body' });
  private readonly views = element('div', { hidden: true });
  private readonly staff = new StaffView((event, { extend, twice }) => this.choose(event, { extend, focus: twice }));
  private readonly board = new BoardView();
  private readonly heard = new HeardView(
    this.staff,
    (event) => this.choose(event, {}),
    (message) => this.host.send(message),
  );
  private readonly path = new PathView((event) => this.choose(event, {}));
  private readonly details = new DetailsView({ compare: (other) => this.compare(other), choose: (other) => this.pin(other) });
  private readonly transport: TransportView;
  private readonly playback: Playback;

  constructor(
    root: HTMLElement,
    private readonly host: Host,
    remembered: Remembered,
  ) {
    this.settings = { speed: 1, loop: false, click: false, countIn: false, wholeString: false, zoom: 1, ...remembered.settings };
    this.playback = new Playback(this.settings, {
      moved: () => this.refresh(),
      stopped: (last) => this.stopped(last),
      failed: (reason) => this.notice.showWorking(t('No sound can be played here: {reason}', { reason })),
    });
    this.transport = new TransportView(this.settings, {
      toggle: () => this.toggle(),
      step: (by) => this.step(by, false),
      goToBar: (bar) => this.goToBar(bar),
      changed: () => this.settingsChanged(),
    });
    const words = element('div', { class: 'words' }, this.details.account, this.details.choices);
    this.body.append(this.staff.root, this.board.root, words);
    this.views.append(
      this.head.root,
      this.transport.root,
      this.path.root,
      this.body,
      this.heard.root,
      this.details.legend,
      this.details.all,
      keysHelp(),
      pictureButtons((view, format) => this.save(view, format)),
    );
    root.append(element('main', { class: 'panel' }, this.notice.working, this.notice.message, this.views));
    document.addEventListener('keydown', (key) => this.onKey(key));
    new ResizeObserver(() => this.draw()).observe(this.body);
  }

  receive(message: WholeMessage): void {
    switch (message.type) {
      case 'scene':
        this.show(message.scene, message.at);
        break;
      case 'cursor':
        this.follow(message);
        break;
      case 'working':
        this.notice.showWorking(message.text, message.share);
        break;
      case 'failed':
        this.playback.drop();
        this.showMessage(message.message);
        break;
      case 'alternatives':
        if (this.others.take(this.scene, message)) this.refresh();
        break;
      case 'marking':
        this.staff.print(message.marking);
        break;
      case 'heard':
        this.heard.take(message);
        this.draw();
        break;
      case 'export':
        this.save(message.view, message.format);
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
    this.playback.drop();
    [this.scene, this.other] = [scene, undefined];
    this.notice.showWorking();
    this.host.remember({ uri: scene.uri, settings: this.settings });
    if (!this.sync.show(scene, at)) {
      this.showMessage(t('Nothing to play yet. Write some pitches in the text, for instance D6o F#6o A6o.'));
      return;
    }
    this.notice.clear();
    this.views.hidden = false;
    this.draw();
  }

  private follow(cursor: Extract<WholeMessage, { type: 'cursor' }>): void {
    const before = this.sync.at?.passage;
    if (!this.sync.follow(cursor)) return;
    this.other = undefined;
    if (before === cursor.at.passage) this.refresh();
    else this.draw();
  }

  private showMessage(text: string): void {
    this.notice.showInstead(text);
    this.views.hidden = true;
  }

  /** Everything, after a new scene, passage or size. */
  private draw(): void {
    const { passage, scene } = this;
    if (!passage || !scene) return;
    this.head.show(scene, this.sync.at?.passage ?? 0, passage);
    this.path.show(passage, this.views.clientWidth);
    // The board takes its room first: in a narrow panel the staff stands beside it.
    if (this.event) this.drawBoard(this.event);
    this.staff.show(passage, this.staff.root.clientWidth, this.settings.zoom);
    this.heard.show(scene.version, this.sync.at?.passage ?? 0, passage, this.views.clientWidth);
    this.refresh();
  }

  /** What changes from note to note. */
  private refresh(): void {
    const { scene, passage, event } = this;
    const { at } = this.sync;
    if (!scene || !at || !passage || !event) return;
    const playing = this.playback.at;
    const shown = (playing === undefined ? undefined : passage.events[playing]) ?? event;
    this.staff.mark({ selected: event.index, range: this.sync.range, playing });
    this.drawBoard(shown);
    this.path.mark(shown.index);
    this.heard.mark(shown.index);
    this.transport.showBar(shown.bar, passage.bars.at(-1)?.number ?? shown.bar);
    const others = this.others.of(scene, { passage: at.passage, event: shown.index });
    this.details.show(passage, shown, others, this.heard.of(shown.index));
    const range = this.sync.range;
    this.transport.showRange(range ? t('notes {first} to {last}', { first: range[0] + 1, last: range[1] + 1 }) : '');
  }

  /** A person chose a note of the passage shown. */
  private choose(event: number, how: { readonly extend?: boolean; readonly focus?: boolean }): void {
    const message = this.sync.at && this.sync.choose({ passage: this.sync.at.passage, event }, how);
    if (!message) return;
    this.other = undefined;
    this.host.send(message);
    this.refresh();
  }

  /** A person chose another passage. */
  private open(at: NoteAddress): void {
    this.playback.drop();
    const message = this.sync.choose(at);
    if (message) this.host.send(message);
    this.draw();
  }

  private step(by: number, extend: boolean): void {
    const last = (this.passage?.events.length ?? 0) - 1;
    const from = this.playback.at ?? this.sync.at?.event ?? 0;
    this.choose(Math.max(0, Math.min(last, from + by)), { extend });
  }

  /** The first note of a bar, or of the next bar that has one. */
  private goToBar(number: number): void {
    const bar = this.passage?.bars.find((each) => each.number >= number && each.endEvent > each.firstEvent);
    if (bar) this.choose(bar.firstEvent, {});
  }

  private compare(other: SceneAlternative | undefined): void {
    if (this.playback.playing) return;
    this.other = other;
    if (this.event) this.drawBoard(this.event);
  }

  private drawBoard({ index }: SceneEvent): void {
    if (!this.passage) return;
    const { wholeString } = this.settings;
    const heard = this.heard.of(index);
    this.board.show({ passage: this.passage, event: index, other: this.other, wholeString, heard }, this.views.clientWidth);
    this.body.classList.toggle('narrow', this.board.root.classList.contains('upright'));
  }

  private pin(other: SceneAlternative): void {
    const at = this.sync.at;
    if (!this.scene || !at) return;
    const { uri, version } = this.scene;
    const note = { passage: at.passage, event: this.playback.at ?? at.event };
    this.playback.stop();
    this.host.send({ type: 'pin', uri, version, at: note, alternative: other.index });
  }

  private toggle(): void {
    const { passage } = this;
    if (this.playback.playing) this.playback.stop();
    else if (passage) {
      this.other = undefined;
      this.transport.showPlaying(true);
      this.details.speak(false);
      this.playback.start(passage, this.sync.at?.event ?? 0, this.sync.range);
    }
  }

  /** The next start goes on from where the music stopped, unless it repeats a choice of notes or had come to the end. */
  private stopped(last: number | undefined): void {
    this.transport.showPlaying(false);
    this.details.speak(true);
    const over = last === undefined || last + 1 === this.passage?.events.length;
    if (over || this.sync.range) this.refresh();
    else this.choose(last, {});
  }

  private settingsChanged(): void {
    this.host.remember({ ...(this.scene && { uri: this.scene.uri }), settings: this.settings });
    if (this.playback.playing) {
      // A change while playing is heard at once, from the note that sounds.
      this.toggle();
      this.toggle();
    } else this.draw();
  }

  private save(view: ViewName, format: ExportFormat): void {
    const drawing = view === 'board' ? this.board.picture() : this.staff.picture();
    if (!drawing) return;
    saved(view, format, this.passage?.title ?? '', drawing).then(
      (message) => this.host.send(message),
      ({ message }: Error) => this.notice.showWorking(t('The picture could not be made: {reason}', { reason: message })),
    );
  }

  private onKey(key: KeyboardEvent): void {
    const action = belongsTo(key.target, key.key) || this.views.hidden ? undefined : actionOf(key);
    if (!action) return;
    key.preventDefault();
    this.act(action);
  }

  private act(action: KeyAction): void {
    switch (action.kind) {
      case 'step':
        this.step(action.by, action.extend);
        break;
      case 'edge':
        this.choose(action.to === 'first' ? 0 : (this.passage?.events.length ?? 1) - 1, { extend: action.extend });
        break;
      case 'play':
        this.toggle();
        break;
      case 'text':
        this.choose(this.sync.at?.event ?? 0, { focus: true });
        break;
      case 'choices':
        this.details.choices.querySelector<HTMLElement>('button, summary')?.focus();
        break;
      default:
        this.transport.act(action.kind);
    }
  }
}
