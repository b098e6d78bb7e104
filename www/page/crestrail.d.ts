// What the worker uses of the first part of the bindings, which the packer makes from the core.

type Report = (done: number, total: number, words: string) => void;

export function speak(catalogue: unknown): unknown;
export function knobs(family?: unknown): unknown;
export function families(): unknown;
export function turnInto(request: unknown): unknown;
export function step(request: unknown): unknown;
export function readDesign(text: unknown): unknown;
export function writeDesign(design: unknown, name: unknown): unknown;
export function readLink(fragment: unknown): unknown;
export function writeLink(design: unknown): unknown;
/** A search under way. */
export class Ranges {
  step(trials: number): unknown;
  free(): void;
}
export function ranges(request: unknown): unknown;
export function nearest(request: unknown, progress: Report): unknown;
export function makeItFit(request: unknown, progress: Report): unknown;
export function demoShop(): unknown;
export function readShop(text: unknown): unknown;
export function readShowroom(text: unknown): unknown;
export function offerOf(request: unknown): unknown;
export function lookAt(request: unknown): unknown;
export function writeToldLink(request: unknown): unknown;

export default function init(where: { module_or_path: URL | Response | ArrayBuffer | WebAssembly.Module }): Promise<unknown>;
