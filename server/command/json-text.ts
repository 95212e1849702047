/** As JSON that a terminal shows as it stands: the controls that JSON lets pass are escaped too. */
export function jsonText(value: unknown): string {
  const escaped = (sign: string) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
  return JSON.stringify(value, null, 2).replace(/[\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g, escaped);
}
