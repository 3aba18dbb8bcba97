"""Which pages there are and what each shows, as views of words already chosen and sorted."""
