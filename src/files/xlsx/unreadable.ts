/** A file that cannot be taken, with what to tell the user; the command ends without having changed anything. */
export class UnreadableFile extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UnreadableFile';
  }
}
