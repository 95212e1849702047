import { button, element } from './element';

export interface TransportSettings {
  /** 0.25 to 1. */
  speed: number;
  loop: boolean;
  click: boolean;
  countIn: boolean;
  wholeString: boolean;
}

export interface TransportActions {
  toggle(): void;
  step(by: number): void;
  changed(): void;
}

export const SLOWEST = 0.25;
export const SPEED_STEP = 0.05;

/** Play, step, slow down, repeat, click. */
export class TransportView {
  readonly root = element('div', { class: 'transport', role: 'toolbar', 'aria-label': 'Playing' });
  private readonly play: HTMLButtonElement;
  private readonly range = element('span', { class: 'quiet range' });
  private readonly speed = element('input', { type: 'range', id: 'speed', min: SLOWEST * 100, max: 100, step: SPEED_STEP * 100 });
  private readonly said = element('output', { for: 'speed' });
  private readonly switches: readonly (readonly [keyof TransportSettings, HTMLButtonElement])[];

  constructor(
    private readonly settings: TransportSettings,
    private readonly actions: TransportActions,
  ) {
    this.play = button('Play', { class: 'play' }, () => actions.toggle());
    this.switches = [
      this.switch('loop', 'Repeat'),
      this.switch('click', 'Click'),
      this.switch('countIn', 'Count in'),
      this.switch('wholeString', 'Whole string'),
    ];
    this.speed.addEventListener('input', () => this.set('speed', Number(this.speed.value) / 100));
    this.root.append(
      button('‹', { 'aria-label': 'Previous note' }, () => actions.step(-1)),
      this.play,
      button('›', { 'aria-label': 'Next note' }, () => actions.step(1)),
      element('label', { class: 'speed' }, 'Speed ', this.speed, this.said),
      ...this.switches.map(([, made]) => made),
      this.range,
    );
    this.refresh();
  }

  set<K extends keyof TransportSettings>(key: K, value: TransportSettings[K]): void {
    this.settings[key] = value;
    this.refresh();
    this.actions.changed();
  }

  showPlaying(playing: boolean): void {
    this.play.textContent = playing ? 'Pause' : 'Play';
    this.play.classList.toggle('on', playing);
  }

  /** Tells which notes repeat. */
  showRange(text: string): void {
    this.range.textContent = text;
  }

  private switch(key: 'loop' | 'click' | 'countIn' | 'wholeString', label: string): readonly [typeof key, HTMLButtonElement] {
    return [key, button(label, { class: 'switch' }, () => this.set(key, !this.settings[key]))];
  }

  private refresh(): void {
    for (const [key, made] of this.switches) made.setAttribute('aria-pressed', String(this.settings[key]));
    this.speed.value = String(Math.round(this.settings.speed * 100));
    this.said.textContent = `${Math.round(this.settings.speed * 100)} %`;
  }
}
