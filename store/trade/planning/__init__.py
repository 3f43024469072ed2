"""When each floor can and must be laid, and by whom: networks of activities, rates of work, and proposed plans."""
