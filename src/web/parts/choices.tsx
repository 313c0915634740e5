/** A few choices side by side, one of them taken. */
export function Choices<Choice extends string | number>(props: {
  label: string;
  choices: readonly Choice[];
  chosen: Choice;
  text: (choice: Choice) => string;
  onChoose: (choice: Choice) => void;
}) {
  return (
    <fieldset className="choices">
      <legend>{props.label}</legend>
      {props.choices.map((choice) => (
        <label key={choice}>
          <input
            type="radio"
            name={props.label}
            checked={choice === props.chosen}
            onChange={() => props.onChoose(choice)}
          />
          <span>{props.text(choice)}</span>
        </label>
      ))}
    </fieldset>
  );
}
