"""The subcommands of ``octavo``, one module each: its arguments, and what it does with them."""
