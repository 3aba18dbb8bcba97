"""The command line: arguments, reports and exit codes."""
