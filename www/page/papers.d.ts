// What the worker uses of the part that loads on demand.

type Report = (done: number, total: number, words: string) => void;

export function speak(catalogue: unknown): unknown;
export function file(request: unknown, progress: Report): unknown;
export function shapes(request: unknown): unknown;
export function exchange(request: unknown): unknown;
export function work(request: unknown): unknown;
export function workPages(request: unknown, regular: Uint8Array, medium: Uint8Array): unknown;
export function benchBook(request: unknown, progress: Report, regular: Uint8Array, medium: Uint8Array): unknown;
export function sheets(request: unknown): unknown;
export function sheet(request: unknown, regular: Uint8Array, medium: Uint8Array): unknown;
export function readOrder(text: unknown): unknown;
export function order(request: unknown): unknown;
export function quote(request: unknown): unknown;
export function quotePdf(request: unknown, regular: Uint8Array, medium: Uint8Array): unknown;
export function readAttached(bytes: Uint8Array): unknown;
export function tornado(request: unknown, progress: Report): unknown;
export function plan(request: unknown, progress: Report): unknown;
export function sets(request: unknown, progress: Report): unknown;
export function planFile(request: unknown, progress: Report): unknown;
export function publishShowroom(request: unknown): unknown;
export function checkIn(request: unknown): unknown;

export default function init(where: { module_or_path: URL | Response | ArrayBuffer | WebAssembly.Module }): Promise<unknown>;
