/** Signed proofs, kept in this browser: each belongs to one bench exactly as it was wired and stored when all its rows were seen. */
import type { Plan } from '../../shared/plan.ts';

export interface SignedProof {
  /** ISO date */
  readonly date: string;
  readonly by: string;
  readonly rows: number;
  readonly inputs: readonly string[];
}

const KEY = 'lampwright-proofs';
/** Older ones are forgotten. */
const KEPT = 50;

/** All that a proof depends on: not where switches stand, nor notes, meters and titles. */
const subjectOf = ({ boards, parts, leads, memories, wanted }: Plan): string => JSON.stringify([boards, parts, leads, memories, wanted]);

async function keyOf(plan: Plan): Promise<string> {
  const bytes = new TextEncoder().encode(subjectOf(plan));
  // a page that is not served safely has no digest: then the bench itself is the key
  if (!globalThis.crypto?.subtle) return subjectOf(plan);
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return Array.from(new Uint8Array(digest), (b) => b.toString(16).padStart(2, '0')).join('');
}

function read(): Record<string, SignedProof> {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, SignedProof>;
  } catch {
    return {};
  }
}

export async function signProof(plan: Plan, proof: SignedProof): Promise<void> {
  const key = await keyOf(plan);
  const { [key]: _, ...others } = read();
  const kept = Object.entries(others).slice(1 - KEPT);
  try {
    localStorage.setItem(KEY, JSON.stringify(Object.fromEntries([...kept, [key, proof]])));
  } catch {
    // no storage here: the proof is signed for as long as the page is open
    unkept.set(key, proof);
  }
}

const unkept = new Map<string, SignedProof>();

/** undefined: this very bench was not proven, or something on it was changed since. */
export async function signedProof(plan: Plan): Promise<SignedProof | undefined> {
  const key = await keyOf(plan);
  return unkept.get(key) ?? read()[key];
}

export const dateOf = ({ date }: SignedProof): string => new Date(date).toLocaleDateString(undefined, { dateStyle: 'long' });
