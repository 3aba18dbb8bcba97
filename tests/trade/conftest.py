from hypothesis import settings

# The same examples on every machine, however slow it is, and nothing written beside the tests.
settings.register_profile("steady", deadline=None, derandomize=True, database=None)
settings.load_profile("steady")
