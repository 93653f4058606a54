/**
 * What pure domain code answers where a user can be wrong: the value, or one reason of a closed set.
 * The engine turns a reason into an `AppError`; a form field shows it directly.
 */
export type Checked<Value, Reason extends string> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly reason: Reason };

/** The good answer. */
export function accept<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

/** The refusal with its reason. */
export function refuse<Reason extends string>(
  reason: Reason,
): { readonly ok: false; readonly reason: Reason } {
  return { ok: false, reason };
}
