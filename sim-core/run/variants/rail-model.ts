/** A rail as benches share it: its supply, and what stands between it and ground alone, of which some has states. */
import type { Supply } from '../../devices/device-models.ts';
import { type Device, GROUND, Network, type Node, OFF, type Pull } from '../../devices/network.ts';
import type { makeSiteBuilder } from '../circuit/site-builder.ts';
import type { ContactSite } from '../circuit/sites.ts';
import type { Range } from '../rows/polynomial.ts';
import { SupplyRail } from '../rows/supply-rail.ts';

/** The rail is node 0, all other metal but ground is node 1. */
const RAIL: Node = 0;

export class RailModel {
  /** as its supply alone would have it [V], and a range about that */
  readonly volts: number;
  readonly range: Range;
  /** finds where it is with its blocks */
  readonly balance: SupplyRail;
  /** contacts and outputs between it and ground */
  readonly contacts: readonly ContactSite[];
  readonly outputs: readonly Device[];
  private readonly network = new Network(2);
  private isStale = false;

  constructor(supply: Supply, isOn: boolean, connect: (network: Network) => ReturnType<typeof makeSiteBuilder>['sites']) {
    const { network } = this;
    const feed = network.addSupply(RAIL, GROUND, supply);
    const sites = connect(network);
    network.seal();
    network.switchSupply(feed, isOn);
    const isBetween = (nodes: readonly Node[]) => nodes.every((n) => n === RAIL || n === GROUND) && nodes.includes(RAIL);
    this.contacts = sites.contacts.filter(({ device }) => isBetween(network.nodesOf(device)) && network.nodesOf(device).includes(GROUND));
    this.outputs = sites.chips.flatMap(({ outputs, ground, supply: { node } }) =>
      outputs.filter((o) => isBetween([o.node, ground.node, node]) && [o.node, ground.node, node].includes(GROUND)).map((o) => o.device),
    );
    this.volts = isOn ? supply.volts : 0;
    this.balance = new SupplyRail(network, RAIL, this.volts, []);
    const { half } = this.balance.range;
    this.range = { middle: Math.round(this.volts / (2 * half)) * 2 * half, half };
  }

  /** As its bench finds it: contacts open, outputs off, its voltage that of its supply; false if that cannot be had. */
  reset(): boolean {
    for (const { device, contact } of this.contacts) this.network.setConductance(device, 1 / contact.off);
    for (const device of this.outputs) this.network.setPull(device, OFF);
    return this.goHome();
  }

  /** To the voltage of its supply, as what stands on it is now; false if that cannot be had. */
  goHome(): boolean {
    this.isStale = false;
    this.balance.follow();
    this.balance.range = this.range;
    return this.balance.goTo(this.volts);
  }

  setContact(place: number, closed: boolean): void {
    const { device, contact } = this.contacts[place] as ContactSite;
    const siemens = 1 / (closed ? contact.on : contact.off);
    if (this.network.conductance(device) === siemens) return;
    this.network.setConductance(device, siemens);
    this.isStale = true;
  }

  setPull(place: number, pull: Pull): void {
    this.network.setPull(this.outputs[place] as Device, pull);
    this.isStale = true;
  }

  /** What stands on it has changed: it is found again from here; false if that cannot be had. */
  refresh(): boolean {
    if (!this.isStale) return true;
    this.isStale = false;
    this.balance.follow();
    return this.balance.goTo(this.balance.volts);
  }
}
