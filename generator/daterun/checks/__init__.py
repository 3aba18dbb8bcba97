"""What one record alone cannot tell: the rules, the runs and their gaps."""
