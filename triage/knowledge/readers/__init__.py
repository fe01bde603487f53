"""From YAML to the model: every reference resolved, every mistake told with its place."""
