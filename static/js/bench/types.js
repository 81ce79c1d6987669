/**
 * The shapes that the server writes into the page (see soapbench/bench/phone.py) and the modules share.
 *
 * @typedef {{bytes: ArrayBuffer, media: string}} FileKept a photo or a recording that waits to be sent
 * @typedef {{id: string, kind: string, prompt: string, payload: Record<string, any>, happened_at: string,
 *   device_at?: string, device: string, position?: number, person?: string, seen?: number | null,
 *   file?: FileKept}} Event
 * @typedef {{key: string, name: string, material: string, group: string, kind: string, basis: string, rate: number,
 *   planned_g: number, tolerance_g: number, vessel: string, portion: string, lot: number | null}} Line
 * @typedef {{key: string, label: string, minutes: number, until: string, portion: string,
 *   spoon_after: number | null}} PlanTimer spoon_after: minutes over, from which a portion is spooned
 * @typedef {{key: string, kind: string, title: string, phase: string, line: string, portion: string,
 *   letters: string[], pot: string, changes: string[],
 *   ticks: {key: string, lines: string[], alone: boolean}[], meanwhile: boolean, takes_minutes: number,
 *   low_c: number | null, high_c: number | null,
 *   timer: PlanTimer | null}} Prompt
 * @typedef {{resolution_g: number, decimals: number, tares: Record<string, number>,
 *   takes_mol_per_g: Record<string, number>, alkali_g_per_mol: Record<string, number>,
 *   lots: Record<string, {material: string, takes_mol_per_g: number | null, mol_per_g: number | null}>,
 *   mol_per_g: Record<string, number>, acid_mol_per_g: Record<string, number>, jug: string[],
 *   water: {by: string, value: number}, lines: Line[], prompts: Prompt[], rest: RestPlan | null,
 *   portions: {letter: string, name: string, share: number}[], items: Record<string, string>,
 *   names: Record<string, string>,
 *   path: string, tools: Record<string, string>, own_lots: Record<string, [number, string]>, path_passes: number,
 *   usual_trace_minutes: number | null, scale: {check_mass_g: number, name: string}, drawing: string}} Plan
 * @typedef {{starts: string, again_hours: number, gel_shows_hours: number,
 *   windows: Record<string, {earliest_h: number, latest_h: number, sentence: string}>}} RestPlan by the gel seen
 * @typedef {{began: string, gel: string, earliest: string, latest: string, sentence: string}} Rest
 * @typedef {{mass_g: number, target_g: number, material: string, lot: number | null, name: string}} Weight
 * @typedef {{is_needed: boolean, choice: string, planned: Record<string, number>,
 *   recomputed: Record<string, number>}} Settlement
 * @typedef {{key: string, label: string, started_at: string, ends_at: string, until: string, portion: string,
 *   spoon_after: number | null}} RunningTimer
 * @typedef {{take_g: number, of_g: number, share: number}} Taking
 * @typedef {{pot: string, temp_c: number, minutes: number, at: string, event: string}} Reading
 * @typedef {{event: string, prompt: string, at: string, payload: Record<string, any>}} Change a departure from the plan
 * @typedef {{person: string, device: string, since: string, event: string}} InHand device: "" when it was handed over
 * @typedef {{subject: string, prompt: string, facts: Event[], counts: string[], is_same: boolean, may_be_both: boolean,
 *   decision: Event | null, is_open: boolean}} Conflict answers that knew nothing of each other
 * @typedef {object} State where the run stands, as far as the phone can tell by itself
 * @property {string} status
 * @property {string} current
 * @property {Record<string, string>} done
 * @property {Record<string, boolean>} skipped
 * @property {Record<string, boolean>} ticked
 * @property {Record<string, string>} dealt what is done about an item that is not here
 * @property {Record<string, Weight>} weights
 * @property {Record<string, {material: string, lot: number | null}>} used_instead
 * @property {Record<string, number>} targets
 * @property {Record<string, number[]>} parts
 * @property {Record<string, number>} owed
 * @property {string[]} left_out
 * @property {number} lye_share
 * @property {Record<string, Taking>} takings
 * @property {number} pot_g
 * @property {Record<string, number>} portions_g
 * @property {Settlement | null} settlement
 * @property {Reading[]} readings
 * @property {RunningTimer[]} timers
 * @property {string | null} due_at
 * @property {Rest | null} rest the loaf, once it was set aside
 * @property {string | null} pressed_at when the loaf was last pressed
 * @property {string | null} paused_since the bench is on hold since then
 * @property {string | null} rinsing_since somebody rinses off something caustic since then
 * @property {Record<string, InHand>} in_hand by prompt
 * @property {Conflict[]} conflicts
 * @property {string} last_event
 * @property {string} trace
 * @property {Change[]} changes
 * @typedef {{position: number, accepted: string[], remark: string, state: any, facts: Event[]}} Answer
 */
export {};
