/** A link that runs a command of the editor. */
export function commandLink(command: string, args: readonly unknown[]): string {
  return `command:${command}?${encodeURIComponent(JSON.stringify(args)).replace(/[()]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}`;
}
