/** The shell: one bench fills the window, the notebook and the strip stand at its edges and can be put away. */
import { html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { LightElement } from '../ui/light-element.ts';
import '../inside/inside-view.ts';
import { COMMANDS } from '../commands/catalogue.ts';
import type { CommandContext } from '../commands/command.ts';
import '../commands/bench-menu.ts';
import type { BenchMenu } from '../commands/bench-menu.ts';
import type { CommandLine } from '../commands/command-line.ts';
import { type MenuLine, menuLines } from '../commands/menu-lines.ts';
import type { OpenPlan } from '../panel/build/plan-form.ts';
import '../commands/command-line.ts';
import type { KeyList } from '../commands/key-list.ts';
import '../commands/key-list.ts';
import type { Failure, Ref } from '../../sim-core/index.ts';
import { commandOfKey } from '../commands/keys.ts';
import { commandsNamed, runLine } from '../commands/line.ts';
import '../edit/parts-panel.ts';
import { Builder } from '../edit/builder.ts';
import type { ItemCard } from '../edit/item-card.ts';
import type { PartsPanel } from '../edit/parts-panel.ts';
import '../edit/item-card.ts';
import type { FindingCard } from '../bench/finding-card.ts';
import '../bench/finding-card.ts';
import type { AtMark } from '../bench/finding-marks.ts';
import { chooseTheme } from '../theme/theme.ts';
import { FileDrop } from './file-drop.ts';
import './first-steps.ts';
import type { FirstSteps } from './first-steps.ts';
import { openHelp } from './open-help.ts';
import { showWhenReady } from './show-when-ready.ts';
import { SpokenNews } from './spoken-news.ts';
import { paceNote, placingText, readOnlyNote, refusalNote, sayUnder, statusNote, storageWarning, toLeds } from './status-line.ts';
import '../theme/view-tools.ts';
import type { PlanMeter } from '../../shared/plan.ts';
import { changeMeter, type MeterPanel } from '../bench/meter-panel.ts';
import type { ViewTools } from '../theme/view-tools.ts';
import '../bench/meter-panel.ts';
import type { SidePanel } from '../panel/panel.ts';
import '../panel/panel.ts';
import type { Keeping } from '../plans/autosave.ts';
import type { PlanChooser } from '../plans/plan-chooser.ts';
import { go, readRoute } from '../ui/route.ts';
import type { PointAtRef } from '../ui/sentence-view.ts';
import '../plans/plan-chooser.ts';
import '../plans/history-tools.ts';
import type { BenchScene, MenuAsked } from '../bench/bench-scene.ts';
import type { FaceActions } from '../scene/faces/face.ts';
import type { Under } from '../scene/hit-text.ts';
import type { LedsAway } from '../scene/led-sight.ts';
import '../bench/bench-scene.ts';
import { printable, printableNamed } from '../sheet/printable.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { TimingDiagram } from '../timing/timing-diagram.ts';
import { JobClient } from '../worker/job-client.ts';
import { startSession } from './start-session.ts';
import '../timing/timing-diagram.ts';
import { icon } from '../theme/icon.ts';

/** Parts then lies over the bench, and closes for it. */
const NARROW = matchMedia('(max-width: 40rem)');

/** The notebook is then below the bench, and the inside view may lie over both. */
const OVER_NOTEBOOK = matchMedia('(max-width: 60rem)');

const namedCommands = (search: string) => commandsNamed(search, COMMANDS);

@customElement('lampwright-app')
export class LampwrightApp extends LightElement {
  private readonly session = startSession();
  private readonly builder = new Builder(this.session);
  @state() private model: BenchModel | undefined;
  @state() private refusal: Failure | undefined;
  /** why the browser does not keep the bench, as long as it does not */
  @state() private unkept: Failure | undefined;
  @state() private folded = false;
  @state() private partsOpen = false;
  @state() private measuring = false;
  @state() private sheet = printableNamed(location.hash);
  @state() private ledsAway: LedsAway;
  @query('bench-scene', true) private readonly scene!: BenchScene;
  @query('.under', true) private readonly readout!: HTMLElement;
  @query('plan-chooser', true) private readonly chooser!: PlanChooser;
  @query('meter-panel') private readonly meter!: MeterPanel | null;
  @query('parts-panel', true) private readonly partsElement!: PartsPanel;
  @query('item-card', true) private readonly card!: ItemCard;
  @query('side-panel') private readonly notebook!: SidePanel;
  @query('view-tools', true) private readonly tools!: ViewTools | null;
  @query('finding-card', true) private readonly findingCard!: FindingCard;
  @query('bench-menu', true) private readonly menu!: BenchMenu;
  @query('command-line', true) private readonly line!: CommandLine;
  @query('timing-diagram') private readonly strip!: TimingDiagram;
  @query('key-list', true) private readonly keyList!: KeyList;
  @query('first-steps', true) private readonly steps!: FirstSteps;
  private under: Under | undefined;
  private readonly spoken = new SpokenNews(this, this.session);
  @state() private pace = 1;
  private kept: PointAtRef['ref'];

  /** the shell as actions by name see it, once its elements are there */
  @state() private context: CommandContext | undefined;

  protected override firstUpdated() {
    this.context = {
      session: this.session,
      scene: this.scene,
      builder: this.builder,
      jobs: new JobClient(),
      openParts: (open) => this.openParts(open),
      chooser: this.chooser,
      showPage: (place) => {
        this.folded = false;
        go(place);
        // whoever types goes on reading there; the line that was typed into gives its focus back first
        requestAnimationFrame(() => {
          // unless the next line is being typed by then
          if (!document.querySelector('dialog[open]')) this.notebook.focusPage();
        });
      },
      hidePanel: (hidden) => {
        this.folded = hidden;
      },
      measure: async (on) => {
        this.measuring = on;
        await this.updateComplete;
        return this.meter;
      },
      setTheme: chooseTheme,
      lookInside: (chip) => this.hand.open(chip),
      timing: () => this.strip,
      showHelp: () => openHelp((line) => void this.doLine(line)),
      showFirstSteps: () => this.steps.again(),
      showKeys: () => this.keyList.show(),
      showLine: () => this.line.show(),
    };
  }

  private readonly hearDone = (e: CustomEvent<string>) => this.spoken.done(e.detail);
  private readonly hearNews = (e: CustomEvent<string>) => {
    this.spoken.say(e.detail);
  };

  private openParts(open: boolean) {
    this.partsOpen = open;
    if (!open) this.builder.hold(undefined);
    else if (!NARROW.matches) void this.updateComplete.then(() => this.partsElement.focusSearch());
  }

  /** the chip whose close-up is open */
  @state() private chip: string | undefined;

  private readonly hand: FaceActions = {
    set: (part, pole, closed) => this.session.act({ do: 'set', part, pole, closed }),
    press: (part) => this.session.act({ do: 'press', part }),
    release: (part) => this.session.act({ do: 'release', part }),
    open: (chip) => {
      // its card would lie over it; it stays chosen
      this.builder.select(this.builder.chosen, false, false);
      this.chip = chip;
      // it stands in its place, beside the bench
      if (!OVER_NOTEBOOK.matches) this.folded = false;
    },
    ask: (led) => {
      // a meter being placed goes first
      if (this.measuring && this.meter?.touchLed(led)) return;
      this.folded = false;
      go({ page: 'why', about: led });
    },
  };

  override connectedCallback() {
    super.connectedCallback();
    this.session.on('model', (model) => {
      this.model = model;
      this.refusal = undefined;
      document.title = `${model.plan.title} · Lampwright`;
    });
    this.session.on('findings', (findings) => this.scene.marks.show(findings));
    this.session.on('opened', () => {
      // what was chosen, looked into and pointed at was on the bench before
      this.builder.cancel();
      this.chip = undefined;
      this.point({ ref: undefined, keep: true });
      void Promise.all([this.updateComplete, this.steps.updateComplete])
        .then(() => this.scene.updateComplete)
        .then(() => this.scene.frame());
    });
    this.session.on('pace', (pace) => {
      this.pace = pace;
    });
    this.session.on('readings', (readings) => {
      // the scene may still have to draw the bench that these readings are of
      if (this.scene.model === this.model) this.scene.show(readings);
      else void this.updateComplete.then(() => this.scene.updateComplete).then(() => this.scene.show(readings));
    });
    showWhenReady(this, this.session);
    this.session.on('settled', () => this.tellUnder());
    for (const kind of ['status', 'readOnly'] as const) this.session.on(kind, () => this.requestUpdate());
    this.session.on('refused', (failure) => {
      this.refusal = failure;
    });
    addEventListener('keydown', this.keys);
    addEventListener('hashchange', this.turned);
    this.builder.on(() => this.requestUpdate());
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('folded') && this.hasUpdated) this.scene.mayFit();
    if (this.folded && !OVER_NOTEBOOK.matches) this.chip = undefined;
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('keydown', this.keys);
    removeEventListener('hashchange', this.turned);
  }

  private readonly turned = () => {
    this.sheet = printableNamed(location.hash);
  };

  private readonly keys = (e: KeyboardEvent) => {
    if (this.sheet) return;
    if (e.key === 'Escape' && !document.querySelector('dialog[open]')) {
      this.scene.cancel();
      this.measuring = false;
      this.chip = undefined;
      this.refusal = undefined;
      this.point({ ref: undefined, keep: true });
    }
    if (e.target === document.body) this.scene.key(e);
    const line = commandOfKey(e, COMMANDS);
    if (line === undefined || document.querySelector('dialog[open]')) return;
    e.preventDefault();
    void this.doLine(line);
  };

  /** An action by a key: what was done is spoken, what could not be done is shown. */
  private async doLine(line: string) {
    if (!this.context) return;
    const answer = await runLine(line, COMMANDS, this.context);
    if (answer.ok) this.spoken.done(answer.value);
    else this.refusal = answer.failure;
  }

  private point({ ref, keep }: PointAtRef) {
    if (keep) this.kept = ref;
    this.scene.point(ref ?? this.kept, keep);
  }

  /** The pointer is at a mark: the card tells; a click turns to the page as well. */
  private atMark(at: AtMark) {
    this.findingCard.at(at);
    if (at.does !== 'open') return;
    this.folded = false;
    go({ page: 'findings' });
  }

  private tellUnder() {
    this.readout.textContent = sayUnder(this.under, this.session.readings);
  }

  private readonly files = new FileDrop(this, (file, handle) => void this.chooser.openFile(file, handle));

  protected override render() {
    const printing = this.sheet !== undefined;
    return html`<main ?inert=${printing}
        class="desk ${this.files.over ? 'dropping' : ''}" @dragover=${this.files.dragOver} @dragleave=${this.files.dragLeave} @drop=${this.files.drop}>
        ${storageWarning(this.unkept, () => void this.doLine('save'))}
        ${readOnlyNote(this.session, () => void this.doLine('make a copy'))}
        <div class="bench-row">
        ${this.partsPanel()}
        <div class="bench-room">
          ${this.bench()}
          ${this.overBench()}
        </div>
        <first-steps .session=${this.session} @typed=${this.typed} @point=${this.pointAt}></first-steps>
        </div>
        <timing-diagram .session=${this.session} .room=${this.roomForStrip} @room-asked=${() => this.scene.mayFit()}></timing-diagram>
      </main>
      ${this.panel(printing)}
      <bench-menu @menu-line=${this.menuLine}></bench-menu>
      <command-line .context=${this.context} @done-by-name=${this.hearDone}></command-line>
      ${printable(
        this.sheet,
        this.session,
        () => this.scene.picture(),
        () => this.requestUpdate(),
      )}
      <key-list></key-list>
      <div class="visually-hidden" role="status">${this.spoken.news}</div>`;
  }

  private partsPanel() {
    return html`<parts-panel aria-label="Parts" role="region" ?hidden=${!this.partsOpen} .builder=${this.builder} @news=${this.hearDone}
          .commandsNamed=${namedCommands} @command-taken=${(e: CustomEvent<MenuLine>) => {
            // with Parts over it, nothing of the bench could be touched
            if (NARROW.matches) this.partsOpen = false;
            this.menuLine(e);
          }}
          @away=${() => this.openParts(false)}
          @taken=${() => {
            if (NARROW.matches) this.partsOpen = false;
          }}
          @wire-taken=${() => {
            // with Parts over it, no hole could be touched
            if (!NARROW.matches) return;
            this.partsOpen = false;
            if (!this.builder.laying) this.builder.layWires();
          }}></parts-panel>`;
  }

  private bench() {
    return html`<bench-scene
            class=${this.measuring ? 'measuring' : ''}
            .model=${this.model}
            .actions=${this.hand}
            .builder=${this.builder}
            .lowerEdge=${this.lowerEdge}
            ?building=${this.partsOpen}
            ?measuring=${this.measuring}
            @news=${this.hearNews}
            @moved=${() => {
              this.card?.settle();
              this.findingCard?.close();
              if (this.tools) this.tools.zoom = this.scene.zoom;
            }}
            @at-mark=${(e: CustomEvent<AtMark>) => this.atMark(e.detail)}
            @menu-asked=${({ detail }: CustomEvent<MenuAsked>) =>
              void this.menu.open(menuLines(detail.target, { session: this.session, builder: this.builder }), detail.x, detail.y)}
            @led-chosen=${(e: CustomEvent<string>) => {
              if (!this.folded && readRoute(location.hash).page === 'why') go({ page: 'why', about: e.detail });
            }}
            @under=${(e: CustomEvent<Under | undefined>) => {
              this.under = e.detail;
              this.tellUnder();
              this.notebook.pick(e.detail);
            }}
            @leds-away=${(e: CustomEvent<LedsAway>) => {
              this.ledsAway = e.detail;
            }}
            @value-asked=${() => void this.card.editValue()}
            @meter-moved=${(e: CustomEvent<PlanMeter>) => changeMeter(this.session, e.detail)}
            @touched=${(e: CustomEvent<Under>) => {
              this.notebook.pick(e.detail, true);
              if (this.measuring) this.meter?.touch(e.detail);
            }}
          ></bench-scene>`;
  }

  /** The inside view, the corners, the cards and what is said over the bench. */
  private overBench() {
    return html`<inside-view .session=${this.session} .builder=${this.builder} .chip=${this.chip}
            @covers=${(e: CustomEvent<number>) => this.scene.cover(e.detail, this.chip ? { kind: 'part', id: this.chip } : undefined)} @close-up=${() => {
              this.chip = undefined;
            }}></inside-view>
          <div class="corner top"><plan-chooser .session=${this.session} @keeping=${(e: CustomEvent<Keeping>) => {
            this.unkept = typeof e.detail === 'object' ? e.detail.failing : undefined;
          }}></plan-chooser>
            <history-tools .session=${this.session} @typed=${this.typed}></history-tools>
            <button type="button" class="to-parts" aria-expanded=${this.partsOpen} aria-label="Parts" title="Parts (B)" @click=${() => this.openParts(!this.partsOpen)}>
              ${icon('M2 5.5h12M2 12.5h12M4 5.5v-3h3v3M9 12.5v-4h3v4', 16)}<span>Parts</span>
            </button>
            <button type="button" class="to-help" aria-label="Help" title="Help" @click=${() => void this.doLine('help')}>?</button>
          </div>
          <finding-card .session=${this.session} @point=${this.pointAt}></finding-card>
          <item-card .builder=${this.builder} .whereabouts=${() => this.scene.whereabouts(this.builder.chosen)}
            @close-up=${(e: CustomEvent<string>) => this.hand.open(e.detail)} @ask-why=${(e: CustomEvent<string>) => this.hand.ask(e.detail)}></item-card>
          <div class="corner bottom">
            ${statusNote(this.session)}
            ${placingText(this.builder, this.partsOpen)}
            ${this.measuring ? html`<meter-panel class="panel" .session=${this.session}></meter-panel>` : nothing}
            ${this.ledsAway ? toLeds(this.ledsAway, this.model?.leds.length ?? 0, () => this.scene.showLeds()) : nothing}
            ${this.spoken.toast ? html`<p class="toast" aria-hidden="true" data-says=${this.spoken.toast}></p>` : nothing}
            <p class="under" aria-hidden="true"></p>
            ${paceNote(this.pace)}
            <view-tools ?measuring=${this.measuring} @typed=${this.typed}></view-tools>
          </div>
          ${refusalNote(this.refusal, () => {
            this.refusal = undefined;
          })}`;
  }

  private panel(printing: boolean) {
    return html`<aside aria-label="Panel" ?inert=${printing} class=${this.folded ? 'folded' : ''} @point=${this.pointAt} @open-plan=${(e: OpenPlan) => void this.chooser.made(e.detail.text, e.detail.next)} @pick-nets=${(e: CustomEvent<readonly number[]>) => this.scene.pickNets(e.detail)} @to-parts=${() => this.openParts(true)} @speak=${(e: CustomEvent<readonly Ref[]>) => this.scene.speak(e.detail)}>
        <side-panel .session=${this.session} ?folded=${this.folded} @fold=${() => {
          this.folded = !this.folded;
        }}></side-panel>
      </aside>`;
  }

  private readonly menuLine = ({ detail }: CustomEvent<MenuLine>) =>
    detail.goesOn ? this.line.show(`${detail.line} `) : void this.doLine(detail.line);
  private readonly roomForStrip = () => this.scene.roomForStrip;
  private readonly lowerEdge = () => this.steps.overBench;
  private readonly typed = (e: CustomEvent<string>) => void this.doLine(e.detail);
  private readonly pointAt = (e: CustomEvent<PointAtRef>) => this.point(e.detail);
}
