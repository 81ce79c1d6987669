/**
 * The shapes that the server writes into the page (see soapbench/bench/screen.py) and the modules share.
 *
 * @typedef {{id: string, kind: string, prompt: string, payload: Record<string, any>, happened_at: string,
 *   device: string}} Event
 * @typedef {{position: number, accepted: string[], state: any, facts: Event[]}} Answer
 */
export {};
