"""What is known of a machine, a spool and a part. Recipes ask for facts; checks judge with them."""
