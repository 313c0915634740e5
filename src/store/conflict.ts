/** The same id came again with another content. One of the two is a mistake, and the store cannot know which. */
export class Conflict extends Error {
  readonly argument: string;
  constructor(argument: string, value: string, taken: string) {
    super(`${argument} is ${value}; expected a new id: ${taken}`);
    this.name = "Conflict";
    this.argument = argument;
  }
}
