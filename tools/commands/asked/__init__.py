"""What a person asks for on the command line besides files: settings of the findings, and for whom they are worded."""
