// Faults that types do not find; and text is always set as text, never as markup.
import globals from "globals";

export default [{
  files: ["**/*.js"],
  languageOptions: { ecmaVersion: 2024, sourceType: "module", globals: globals.browser },
  rules: {
    "no-undef": "error", "no-unused-vars": "error", "prefer-const": "error", "eqeqeq": "error",
    "no-shadow": "error", "no-var": "error", "no-eval": "error", "no-implied-eval": "error",
    "no-restricted-properties": ["error",
      { property: "innerHTML" }, { property: "outerHTML" }, { property: "insertAdjacentHTML" },
      { object: "document", property: "write" }],
    "complexity": ["error", 16],
    "max-lines": ["error", 420],
  },
}];
