import { t } from '../../server/l10n/translate';
import { button, element } from './element';

export interface TransportSettings {
  /** 0.25 to 1. */
  speed: number;
  loop: boolean;
  click: boolean;
  countIn: boolean;
  wholeString: boolean;
  /** Size of the staff, 1 as printed. */
  zoom: number;
}

/** What is on or off. */
type Switch = 'loop' | 'click' | 'countIn' | 'wholeString';
type TransportKey = Switch | 'slower' | 'faster' | 'smaller' | 'larger' | 'bar';

export interface TransportActions {
  toggle(): void;
  step(by: number): void;
  /** By its number. */
  goToBar(bar: number): void;
  changed(): void;
}

const SLOWEST = 0.25;
const SPEED_STEP = 0.05;
const ZOOM = { least: 0.5, most: 2.5, step: 1.2 };

/** Play, step, slow down, repeat, click. */
export class TransportView {
  readonly root = element('div', { class: 'transport', role: 'toolbar', 'aria-label': t('Playing') });
  private readonly play: HTMLButtonElement;
  private readonly range = element('span', { class: 'quiet range' });
  private readonly speed = element('input', { type: 'range', id: 'speed', min: SLOWEST * 100, max: 100, step: SPEED_STEP * 100 });
  private readonly said = element('output', { for: 'speed' });
  private readonly bar = element('input', { type: 'number', class: 'bar', id: 'bar', min: 0, step: 1, inputmode: 'numeric' });
  private readonly bars = element('span', { class: 'quiet' });
  private readonly switches: readonly (readonly [Switch, HTMLButtonElement])[];

  constructor(
    private readonly settings: TransportSettings,
    private readonly actions: TransportActions,
  ) {
    this.play = button(t('Play'), { class: 'play' }, () => actions.toggle());
    this.switches = [
      this.switch('loop', t('Repeat')),
      this.switch('click', t('Click')),
      this.switch('countIn', t('Count in')),
      this.switch('wholeString', t('Whole string')),
    ];
    this.bar.addEventListener('change', () => {
      if (this.bar.value !== '') actions.goToBar(Number(this.bar.value));
    });
    this.speed.addEventListener('input', () => this.set('speed', Number(this.speed.value) / 100));
    this.root.append(
      button('‹', { 'aria-label': t('Previous note') }, () => actions.step(-1)),
      this.play,
      button('›', { 'aria-label': t('Next note') }, () => actions.step(1)),
      element('label', { class: 'speed' }, `${t('Speed')} `, this.speed, this.said),
      element('label', { class: 'speed' }, `${t('Bar')} `, this.bar, this.bars),
      button('A', { 'aria-label': t('Smaller notes'), class: 'small' }, () => this.zoom(-1)),
      button('A', { 'aria-label': t('Larger notes'), class: 'large' }, () => this.zoom(1)),
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
    this.play.textContent = playing ? t('Pause') : t('Play');
    this.play.classList.toggle('on', playing);
  }

  /** The bar of the note shown, and the last there is. */
  showBar(bar: number, last: number): void {
    if (document.activeElement !== this.bar) this.bar.value = String(bar);
    this.bar.max = String(last);
    this.bars.textContent = t('of {last}', { last });
  }

  /** What a key asks of it. */
  act(kind: TransportKey): void {
    const { speed } = this.settings;
    switch (kind) {
      case 'slower':
        this.set('speed', Math.max(SLOWEST, speed - SPEED_STEP));
        break;
      case 'faster':
        this.set('speed', Math.min(1, speed + SPEED_STEP));
        break;
      case 'smaller':
        this.zoom(-1);
        break;
      case 'larger':
        this.zoom(1);
        break;
      case 'bar':
        this.bar.focus();
        this.bar.select();
        break;
      default:
        this.set(kind, !this.settings[kind]);
        break;
    }
  }

  private zoom(by: 1 | -1): void {
    const zoom = by > 0 ? this.settings.zoom * ZOOM.step : this.settings.zoom / ZOOM.step;
    this.set('zoom', Math.min(ZOOM.most, Math.max(ZOOM.least, zoom)));
  }

  /** Tells which notes repeat. */
  showRange(text: string): void {
    this.range.textContent = text;
  }

  private switch(key: Switch, label: string): readonly [Switch, HTMLButtonElement] {
    return [key, button(label, { class: 'switch' }, () => this.set(key, !this.settings[key]))];
  }

  private refresh(): void {
    for (const [key, made] of this.switches) made.setAttribute('aria-pressed', String(this.settings[key]));
    this.speed.value = String(Math.round(this.settings.speed * 100));
    this.said.textContent = `${Math.round(this.settings.speed * 100)} %`;
  }
}
