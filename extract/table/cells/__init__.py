"""The cells of a table: what each says, by words, signs, arrows and ink."""
